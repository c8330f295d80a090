/** What a key means on a dive of the strip: the same edits as by hand, in steps. */
import { shiftDives, setBottomMin, setDepth } from '../../../actions/dives';
import type { EditResult } from '../../../actions/edit';
import type { StepName } from '../../../store/history';
import { desk, type NoticeLine } from '../../../store/store';
import { BOTTOM_STEP_MIN, depthStepM, startStepMin, stepped } from './drag';

export type KeyEdit =
  | { readonly kind: 'depth'; readonly direction: 1 | -1; readonly fine: boolean }
  | { readonly kind: 'time'; readonly direction: 1 | -1 }
  | { readonly kind: 'start'; readonly byMin: number };

export type KeyMeaning =
  | KeyEdit
  | { readonly kind: 'go'; readonly to: 'first' | 'last' }
  | { readonly kind: 'extend'; readonly direction: 1 | -1 }
  | { readonly kind: 'choose'; readonly adds: boolean }
  | { readonly kind: 'zoom'; readonly to: 'closer' | 'further' | 'whole' | 'ahead' }
  /** The log of the day of the dive. */
  | { readonly kind: 'log' };

export interface Key {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
}

/** Said alike to hand and key: the figures of a dive that has been dived follow its record. */
export const DIVED: NoticeLine = {
  what: 'This dive has been dived.',
  where: '',
  mend: 'Change it as dived on its card, or take the record back there.',
};

export const MISSED: NoticeLine = {
  what: 'This dive was not dived.',
  where: '',
  mend: 'Take that back in the log of its day to plan it again.',
};

const DAY_MIN = 1440;

/** @returns null for a key that means nothing here and is left to the window */
export function meaningOf(key: Key): KeyMeaning | null {
  const modified = key.ctrlKey || key.metaKey;
  switch (key.key) {
    case 'ArrowUp':
    case 'ArrowDown':
      if (modified || key.altKey) return null;
      return { kind: 'depth', direction: key.key === 'ArrowDown' ? 1 : -1, fine: key.shiftKey };
    case 'ArrowLeft':
    case 'ArrowRight': {
      const direction = key.key === 'ArrowRight' ? 1 : -1;
      if (modified) return key.shiftKey ? { kind: 'extend', direction } : null;
      if (key.shiftKey) return { kind: 'time', direction };
      return { kind: 'start', byMin: direction * startStepMin(key.altKey) };
    }
    case 'PageUp':
    case 'PageDown':
      return modified ? null : { kind: 'start', byMin: key.key === 'PageDown' ? DAY_MIN : -DAY_MIN };
    case 'Home':
    case 'End':
      return modified ? null : { kind: 'go', to: key.key === 'Home' ? 'first' : 'last' };
    case 'Enter':
    case ' ':
      return modified && key.key === 'Enter' ? null : { kind: 'choose', adds: key.shiftKey || modified };
    case '+':
    case '=':
      return modified || key.altKey ? null : { kind: 'zoom', to: 'closer' };
    case '-':
      return modified || key.altKey ? null : { kind: 'zoom', to: 'further' };
    case '0':
      return modified || key.altKey ? null : { kind: 'zoom', to: 'whole' };
    case '9':
      return modified || key.altKey ? null : { kind: 'zoom', to: 'ahead' };
    case 'l':
    case 'L':
      return modified || key.altKey ? null : { kind: 'log' };
    default:
      return null;
  }
}

/** Whether a key changes the trip, and goes on changing it while it is held. */
export function isEdit(meaning: KeyMeaning): meaning is KeyEdit {
  return meaning.kind === 'depth' || meaning.kind === 'time' || meaning.kind === 'start';
}

/** One step of undo for as long as the key is held. */
export function stepNameOf(edit: KeyEdit, diveNumber: number, shiftCount: number): StepName {
  switch (edit.kind) {
    case 'depth':
      return { label: `Depth of dive ${diveNumber}`, code: 'dive.depth' };
    case 'time':
      return { label: `Bottom time of dive ${diveNumber}`, code: 'dive.bottom' };
    case 'start':
      return {
        label: shiftCount > 1 ? `Shift of ${shiftCount} dives` : `Start of dive ${diveNumber}`,
        code: 'dive.shift',
      };
  }
}

/** @returns null where the dive is no more */
export function applyEdit(edit: KeyEdit, diveId: string, shiftIds: readonly string[]): EditResult | null {
  const { trip, settings } = desk.getState();
  const dive = trip.dives.find(({ id }) => id === diveId);
  if (!dive) return null;
  switch (edit.kind) {
    case 'depth':
      return setDepth(diveId, stepped(dive.depthM, depthStepM(settings.units, edit.fine), edit.direction));
    case 'time':
      return setBottomMin(diveId, stepped(dive.bottomMin, BOTTOM_STEP_MIN, edit.direction));
    case 'start':
      return shiftDives(shiftIds, edit.byMin);
  }
}
