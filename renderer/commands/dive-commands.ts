/** Undo and redo, and what is done with the dives that are chosen. */
import { addDive, deleteDives, duplicateDay, duplicateDives } from '../actions/dives';
import { copyChosen, hasCopied, pasteDives } from '../actions/clipboard';
import { tell } from '../actions/edit';
import { redoStep, undoStep } from '../actions/history';
import { closeEvening } from '../actions/evening';
import { chooseDives, showOverlay, stepDive } from '../actions/view';
import { nextStart } from '../actions/next-start';
import { todayText } from '../figures/local-time';
import { selectChosenDive, selectChosenDives, selectTight, selectTightest } from '../store/selectors';
import { chosenIds, hasChosen, hasDives, now } from './asked';
import type { Command } from './registry';

/** Within a sentence; a word such as "EAN50" or "PO2" stays as it is. */
const lowerFirst = (text: string): string =>
  text.replace(/^\p{Lu}(?=\p{Ll})/u, (letter) => letter.toLowerCase());

export const EDIT_COMMANDS: readonly Command[] = [
  {
    id: 'edit.undo',
    group: 'Edit',
    label: 'Undo',
    finds: 'back revert',
    labelNow: ({ history }) => {
      const step = history.past.at(-1);
      return step ? `Undo ${lowerFirst(step.label)}` : 'Undo';
    },
    keys: ['Mod+Z'],
    enabled: ({ history }) => history.past.length > 0,
    run: undoStep,
  },
  {
    id: 'edit.redo',
    group: 'Edit',
    label: 'Redo',
    finds: 'again forward',
    labelNow: ({ history }) => {
      const step = history.future.at(-1);
      return step ? `Redo ${lowerFirst(step.label)}` : 'Redo';
    },
    keys: ['Mod+Shift+Z', 'Mod+Y'],
    enabled: ({ history }) => history.future.length > 0,
    run: redoStep,
  },
];

export const DIVE_COMMANDS: readonly Command[] = [
  {
    id: 'dive.add',
    group: 'Dive',
    label: 'New dive',
    finds: 'create insert plan',
    keys: ['Insert', 'Mod+Enter'],
    run: () => void tell(addDive({ startsAt: nextStart(now(), todayText()) })),
  },
  {
    id: 'dive.copy',
    group: 'Dive',
    label: 'Duplicate the dive',
    finds: 'copy clone repeat',
    keys: ['Mod+D'],
    enabled: hasChosen,
    run: () => void tell(duplicateDives(chosenIds())),
  },
  {
    id: 'day.copy',
    group: 'Dive',
    label: 'Duplicate the day',
    finds: 'copy clone repeat',
    keys: ['Mod+Shift+D'],
    enabled: hasChosen,
    run: () => {
      const chosen = selectChosenDive(now());
      if (chosen) tell(duplicateDay(chosen.startsAt.slice(0, 10)));
    },
  },
  {
    id: 'dive.swap',
    group: 'Dive',
    label: 'Swap with another dive',
    finds: 'exchange change places move',
    enabled: (state) => selectChosenDives(state).length === 1 && state.trip.dives.length > 1,
    run: () => {
      const chosen = selectChosenDive(now());
      if (chosen) showOverlay({ kind: 'swap', diveId: chosen.id });
    },
  },
  {
    id: 'edit.copy',
    group: 'Dive',
    label: 'Copy the dive',
    labelNow: (state) => {
      const { length } = selectChosenDives(state);
      return length > 1 ? `Copy ${length} dives` : 'Copy the dive';
    },
    finds: 'clipboard',
    enabled: hasChosen,
    run: copyChosen,
  },
  {
    id: 'edit.paste',
    group: 'Dive',
    label: 'Paste dives',
    finds: 'clipboard insert',
    enabled: hasCopied,
    run: () => void tell(pasteDives()),
  },
  {
    id: 'dive.none',
    group: 'Dive',
    label: 'Choose no dive',
    keys: ['Escape'],
    finds: 'deselect clear',
    enabled: (state) => hasChosen(state) || state.evening !== null,
    // The strip is left first, then the evening; nothing is lost by that.
    run: () => (hasChosen(now()) ? chooseDives([]) : closeEvening()),
  },
  {
    id: 'dive.delete',
    group: 'Dive',
    label: 'Remove the dive',
    finds: 'delete erase trash cancel',
    labelNow: (state) => {
      const { length } = selectChosenDives(state);
      return length > 1 ? `Remove ${length} dives` : 'Remove the dive';
    },
    keys: ['Delete'],
    enabled: hasChosen,
    run: () => void tell(deleteDives(chosenIds())),
  },
  {
    id: 'dive.next',
    group: 'Dive',
    label: 'Next dive',
    keys: ['Mod+ArrowRight'],
    enabled: hasDives,
    run: () => stepDive(1),
  },
  {
    id: 'dive.previous',
    group: 'Dive',
    label: 'Previous dive',
    keys: ['Mod+ArrowLeft'],
    enabled: hasDives,
    run: () => stepDive(-1),
  },
  {
    id: 'dive.tightest',
    group: 'Dive',
    label: 'The tightest dive',
    finds: 'least room worst limit',
    keys: ['Mod+E'],
    enabled: (state) => selectTightest(state) !== null,
    run: () => {
      const state = now();
      const ids = [...new Set(selectTight(state).map((entry) => entry.dive.id))];
      // Pressed again it goes on to the next that is as tight, and from the last to the first.
      const next = ids[(ids.indexOf(state.selection.diveIds[0] ?? '') + 1) % ids.length];
      if (next !== undefined) chooseDives([next]);
    },
  },
  {
    id: 'dive.all',
    group: 'Dive',
    label: 'Select every dive',
    finds: 'choose all',
    keys: ['Mod+A'],
    enabled: hasDives,
    run: () => chooseDives(now().trip.dives.map(({ id }) => id)),
  },
];
