/** What is looked at and how: never part of the trip, never undone. */
import type { Settings } from '../../core/host';
import type { Id, Trip } from '../../core/document/types';
import { machine } from '../store/machine';
import { dropReadNotice, say } from '../store/notice';
import { desk, type Overlay } from '../store/store';

export function chooseDives(diveIds: readonly Id[]): void {
  dropReadNotice();
  desk.setState(({ selection }) => ({ selection: { ...selection, diveIds } }));
}

/** Adds a dive to the selection, or takes it out. */
export function toggleDive(diveId: Id): void {
  const { diveIds } = desk.getState().selection;
  chooseDives(diveIds.includes(diveId) ? diveIds.filter((id) => id !== diveId) : [...diveIds, diveId]);
}

/** All dives from the one chosen first to this one; this one alone where none is chosen. */
export function chooseRange(diveId: Id): void {
  const { trip, selection } = desk.getState();
  const [first] = selection.diveIds;
  const from = trip.dives.findIndex(({ id }) => id === first);
  const to = trip.dives.findIndex(({ id }) => id === diveId);
  if (from === -1 || to === -1) {
    chooseDives([diveId]);
    return;
  }
  const ids = trip.dives.slice(Math.min(from, to), Math.max(from, to) + 1).map(({ id }) => id);
  // The first stays the first: another Shift goes on from there.
  chooseDives(to < from ? ids.toReversed() : ids);
}

/** Whose figures are shown; null: on each dive the diver with the least room. */
export function chooseDiver(diverId: Id | null): void {
  dropReadNotice();
  desk.setState(({ selection }) => ({ selection: { ...selection, diverId } }));
}

/** The dive before or after in the trip; from nothing, the first or the last. */
export function stepDive(by: 1 | -1): void {
  const { trip, selection } = desk.getState();
  const [first] = selection.diveIds;
  const at = trip.dives.findIndex((dive) => dive.id === first);
  const next = at === -1 ? (by === 1 ? trip.dives[0] : trip.dives.at(-1)) : trip.dives[at + by];
  if (next) chooseDives([next.id]);
}

/** The trip as rows of a table, or as strip and card. */
export function showTable(isTable: boolean): void {
  dropReadNotice();
  desk.setState({ isTable, evening: null });
}

export function showOverlay(overlay: Overlay): void {
  dropReadNotice();
  desk.setState({ overlay });
}

/** Opens what mends the dives ahead, or one of them alone, beside the strip that shows it. */
export function showMending(diveId: Id | null): void {
  if (desk.getState().settings.place !== 'days') goTo('days');
  showOverlay({ kind: 'mend', diveId });
}

/** Shows on the strip what a proposal would make of the trip; null: nothing is looked at. */
export function showProposed(proposed: Trip | null): void {
  desk.setState({ proposed });
}

export function closeOverlay(): void {
  desk.setState({ overlay: null });
}

/** Changes settings on screen at once and keeps them; a failure to keep them is said, not hidden. */
export function changeSettings(patch: Partial<Settings>): void {
  desk.setState(({ settings }) => ({ settings: { ...settings, ...patch } }));
  void machine()
    .saveSettings(patch)
    .then((result) => {
      if (!result.ok) say({ tone: 'refused', lines: [result.trouble] });
    });
}

export function goTo(place: Settings['place']): void {
  dropReadNotice();
  changeSettings({ place });
}

/** What `goToDives` chose, until the strip has the focus. */
let sought: readonly Id[] | null = null;

/** Goes to dives from another place or from a list of cautions: they are chosen, and the strip has the focus. */
export function goToDives(diveIds: readonly Id[]): void {
  sought = diveIds;
  chooseDives(diveIds);
  goTo('days');
}

/** The first of the dives gone to, told once; null where none is, or something else was chosen since. */
export function takeSought(): Id | null {
  const isStanding = sought === desk.getState().selection.diveIds;
  const diveId = isStanding ? sought?.[0] : undefined;
  sought = null;
  return diveId ?? null;
}

const TEXT_STEPS = [0.85, 1, 1.15, 1.3, 1.5, 1.75, 2] as const;

/** The next larger or smaller text, 85 to 200 percent. */
export function stepTextScale(by: 1 | -1): void {
  const { textScale } = desk.getState().settings;
  const next =
    by === 1 ? TEXT_STEPS.find((step) => step > textScale) : TEXT_STEPS.findLast((step) => step < textScale);
  if (next !== undefined) changeSettings({ textScale: next });
}
