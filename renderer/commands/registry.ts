/** What a command is, and how one is found: by id, by key, by the words a person types. */
import type { Desk } from '../store/store';

export type CommandGroup = 'Trip' | 'Edit' | 'Dive' | 'Places' | 'View' | 'Help';

/**
 * A key with its modifiers as written in the list: "Mod+Shift+Z". `Mod` is Ctrl, and Cmd on a Mac. The key
 * is `KeyboardEvent.key`; letters in upper case.
 */
export type Chord = string;

export interface Command {
  /** Stable: "trip.save"; the desktop menu sends it. */
  readonly id: string;
  readonly group: CommandGroup;
  readonly label: string;
  /** Where the label depends on the desk: "Undo depth of dive 9". */
  readonly labelNow?: (state: Desk) => string;
  readonly keys?: readonly Chord[];
  /** Other words it is looked for by: "export save file". */
  readonly finds?: string;
  /** False where the key belongs to the text being typed in a field (Ctrl+Z there undoes typing). */
  readonly inFields?: boolean;
  readonly enabled?: (state: Desk) => boolean;
  readonly run: () => void;
}

export function labelOf(command: Command, state: Desk): string {
  return command.labelNow?.(state) ?? command.label;
}

export function isEnabled(command: Command, state: Desk): boolean {
  return command.enabled?.(state) ?? true;
}

/** Whether something lies over the window that is to be dealt with first: no command reaches what is under it. */
export function isUnderSheet({ overlay, ready, settings }: Desk): boolean {
  return overlay !== null || (ready && !settings.cautionsAccepted);
}

/** Two commands on one key, as "Mod+S: trip.save, trip.send"; empty where every key is one command's. */
export function doubledKeys(commands: readonly Command[]): readonly string[] {
  const byChord = new Map<string, string[]>();
  for (const command of commands) {
    for (const chord of command.keys ?? []) {
      const at = normalChord(chord);
      byChord.set(at, [...(byChord.get(at) ?? []), command.id]);
    }
  }
  return [...byChord]
    .filter(([, ids]) => ids.length > 1)
    .map(([chord, ids]) => `${chord}: ${ids.join(', ')}`);
}

const MODIFIERS = ['Mod', 'Alt', 'Shift'] as const;

/** The same chord whatever the order its modifiers were written in. */
export function normalChord(chord: Chord): Chord {
  // "Mod++" is Mod and the plus key.
  const key = chord.endsWith('+') ? '+' : chord.slice(chord.lastIndexOf('+') + 1);
  const written = chord.slice(0, chord.length - key.length).split('+');
  const modifiers = MODIFIERS.filter((modifier) => written.includes(modifier));
  return [...modifiers, key.length === 1 ? key.toUpperCase() : key].join('+');
}

export type KeyPress = Pick<KeyboardEvent, 'key' | 'code' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey'>;

/**
 * The chord of a key press. Shift is left out where the character already tells it ("?"), so that a chord
 * does not depend on where a keyboard keeps its signs.
 */
export function chordOf(press: KeyPress, isMac = false): Chord {
  // What a Mac's keyboard calls delete is Backspace elsewhere.
  if (isMac && press.key === 'Backspace') return chordOf({ ...press, key: 'Delete' });
  // With Alt a Mac makes other characters of the digits; the key itself is meant.
  const key = press.altKey && press.code.startsWith('Digit') ? press.code.slice('Digit'.length) : press.key;
  const isSign = key.length === 1 && key.toUpperCase() === key.toLowerCase();
  const shift = press.shiftKey && !isSign;
  const modifiers = [
    ...(press.ctrlKey || press.metaKey ? ['Mod'] : []),
    ...(press.altKey ? ['Alt'] : []),
    ...(shift ? ['Shift'] : []),
  ];
  return normalChord([...modifiers, key].join('+'));
}

/** The command of a key press; `inField` where text is being typed. */
export function commandForKey(
  commands: readonly Command[],
  press: KeyPress,
  inField: boolean,
  isMac = false,
): Command | null {
  const chord = chordOf(press, isMac);
  return (
    commands.find(
      (command) =>
        (!inField || command.inFields === true) &&
        (command.keys ?? []).some((each) => normalChord(each) === chord),
    ) ?? null
  );
}

/** A chord as people read it on this system: "Ctrl+S", "⌘S". */
export function chordText(chord: Chord, isMac: boolean): string {
  const names: Readonly<Record<string, string>> = isMac
    ? { Mod: '⌘', Alt: '⌥', Shift: '⇧', Delete: '⌫', ArrowLeft: '←', ArrowRight: '→' }
    : { Mod: 'Ctrl', ArrowLeft: 'Left', ArrowRight: 'Right', ArrowUp: 'Up', ArrowDown: 'Down' };
  const parts = normalChord(chord)
    .replace(/\+\+$/, '+Plus')
    .split('+')
    .map((part) => names[part] ?? part)
    .map((part) => (part === 'Plus' ? '+' : part));
  return parts.join(isMac ? '' : '+');
}

/**
 * How well what was typed fits a command: every word must begin a word of the label or group; higher is
 * better, 0 is no fit. A name that was typed to its last word goes before one that goes on.
 */
export function fit(query: string, text: string): number {
  const words = wordsOf(text);
  const parts = wordsOf(query);
  let score = parts.length === words.length ? 2 : 1;
  for (const part of parts) {
    const at = words.findIndex((word) => word.startsWith(part));
    if (at === -1) return 0;
    score += 1 / (1 + at);
  }
  return score;
}

/** A comma typed as it stands in a label is no word of its own. */
function wordsOf(text: string): readonly string[] {
  return text
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);
}
