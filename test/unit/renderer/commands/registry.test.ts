import { describe, expect, it } from 'vitest';
import {
  chordOf,
  chordText,
  commandForKey,
  doubledKeys,
  fit,
  normalChord,
  type Command,
  type KeyPress,
} from '../../../../renderer/commands/registry';

const NONE: KeyPress = { key: '', code: '', ctrlKey: false, metaKey: false, altKey: false, shiftKey: false };
const nothing = (): void => undefined;
const command = (id: string, keys: readonly string[], inFields = false): Command => ({
  id,
  group: 'Edit',
  label: id,
  keys,
  inFields,
  run: nothing,
});

describe('doubledKeys', () => {
  it('names the key and both commands, however the chord was written', () => {
    expect(doubledKeys([command('a', ['Mod+Shift+Z']), command('b', ['Shift+Mod+z'])])).toEqual([
      'Mod+Shift+Z: a, b',
    ]);
  });

  it('is empty where every key is one command’s', () => {
    expect(doubledKeys([command('a', ['Mod+Z']), command('b', ['Mod+Shift+Z'])])).toEqual([]);
  });
});

describe('chordOf', () => {
  it.each([
    [{ key: 'z', ctrlKey: true }, 'Mod+Z'],
    [{ key: 'Z', metaKey: true, shiftKey: true }, 'Mod+Shift+Z'],
    [{ key: '+', altKey: true, shiftKey: true }, 'Alt++'],
    [{ key: 'F1' }, 'F1'],
    [{ key: '¡', code: 'Digit1', altKey: true }, 'Alt+1'],
    [{ key: '/', ctrlKey: true, shiftKey: true }, 'Mod+/'],
  ])('reads %j as %s', (press, chord) => {
    expect(chordOf({ ...NONE, ...press })).toBe(normalChord(chord));
  });
});

describe('the key over Enter', () => {
  const press = { ...NONE, key: 'Backspace' };

  it('is Delete on a Mac, in words too, and Backspace elsewhere', () => {
    const remove = command('remove', ['Delete']);
    expect(commandForKey([remove], press, false, true)).toBe(remove);
    expect(commandForKey([remove], press, true, true)).toBeNull();
    expect(commandForKey([remove], press, false, false)).toBeNull();
    expect(chordText('Delete', true)).toBe('⌫');
    expect(chordText('Delete', false)).toBe('Delete');
  });
});

describe('commandForKey', () => {
  const undo = command('undo', ['Mod+Z']);
  const save = command('save', ['Mod+S'], true);

  it('leaves to a field what is a field’s own', () => {
    expect(commandForKey([undo, save], { ...NONE, key: 'z', ctrlKey: true }, true)).toBeNull();
    expect(commandForKey([undo, save], { ...NONE, key: 'z', ctrlKey: true }, false)).toBe(undo);
  });

  it('takes the rest from within a field too', () => {
    expect(commandForKey([undo, save], { ...NONE, key: 's', ctrlKey: true }, true)).toBe(save);
  });
});

describe('chordText', () => {
  it('reads as the system writes keys', () => {
    expect(chordText('Mod+Shift+S', false)).toBe('Ctrl+Shift+S');
    expect(chordText('Mod+Shift+S', true)).toBe('⌘⇧S');
    expect(chordText('Alt++', false)).toBe('Alt++');
  });
});

describe('fit', () => {
  it('wants every word to begin a word', () => {
    expect(fit('dup da', 'Duplicate the day')).toBeGreaterThan(0);
    expect(fit('dup xy', 'Duplicate the day')).toBe(0);
    expect(fit('plicate', 'Duplicate the day')).toBe(0);
    expect(fit('title, water', 'Title, water and flight')).toBeGreaterThan(0);
  });

  it('prefers a word nearer the beginning', () => {
    expect(fit('sites', 'Sites')).toBeGreaterThan(fit('sites', 'Sites from a list'));
    expect(fit('dive', 'Dive before')).toBeGreaterThan(fit('dive', 'Select every dive'));
  });
});
