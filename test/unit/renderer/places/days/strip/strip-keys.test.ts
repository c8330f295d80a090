import { describe, expect, it } from 'vitest';
import { meaningOf, type Key } from '../../../../../../renderer/places/days/strip/strip-keys';

const key = (name: string, over: Partial<Key> = {}): Key => ({
  key: name,
  shiftKey: false,
  altKey: false,
  ctrlKey: false,
  metaKey: false,
  ...over,
});

describe('meaningOf', () => {
  it('logs the day of the dive by L, and leaves L with Alt or Ctrl to the window', () => {
    expect(meaningOf(key('l'))).toEqual({ kind: 'log' });
    expect(meaningOf(key('l', { altKey: true }))).toBeNull();
    expect(meaningOf(key('l', { ctrlKey: true }))).toBeNull();
  });

  it('reads down as deeper and up as shallower, by half a step with Shift', () => {
    expect(meaningOf(key('ArrowDown'))).toEqual({ kind: 'depth', direction: 1, fine: false });
    expect(meaningOf(key('ArrowUp', { shiftKey: true }))).toEqual({
      kind: 'depth',
      direction: -1,
      fine: true,
    });
  });

  it('moves the start by five minutes, by one with Alt, by a day with the page keys', () => {
    expect(meaningOf(key('ArrowLeft'))).toEqual({ kind: 'start', byMin: -5 });
    expect(meaningOf(key('ArrowRight', { altKey: true }))).toEqual({ kind: 'start', byMin: 1 });
    expect(meaningOf(key('PageDown'))).toEqual({ kind: 'start', byMin: 1440 });
  });

  it('changes the bottom time with Shift', () => {
    expect(meaningOf(key('ArrowRight', { shiftKey: true }))).toEqual({ kind: 'time', direction: 1 });
  });

  it('leaves the keys of the window to the window', () => {
    expect(meaningOf(key('ArrowRight', { ctrlKey: true }))).toBeNull();
    expect(meaningOf(key('Enter', { ctrlKey: true }))).toBeNull();
    expect(meaningOf(key('+', { altKey: true }))).toBeNull();
    expect(meaningOf(key('Delete'))).toBeNull();
    expect(meaningOf(key('z', { ctrlKey: true }))).toBeNull();
  });

  it('adds to the selection with both', () => {
    expect(meaningOf(key('ArrowRight', { metaKey: true, shiftKey: true }))).toEqual({
      kind: 'extend',
      direction: 1,
    });
  });
});
