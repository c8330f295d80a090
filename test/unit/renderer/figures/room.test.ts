import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { roomPhrase, roomWords } from '../../../../renderer/figures/room';

const entry = ledger(demoTrip()).divers[0]!.entries[0]!;

describe('room in words', () => {
  it('is what is left rounded down, or what is over rounded up', () => {
    expect(roomWords(entry, 4.9, 'no-stop')).toBe('4 min');
    expect(roomPhrase(entry, 4.9, 'no-stop')).toBe('4 min of room');
    expect(roomWords(entry, -0.2, 'gas')).toBe('1 min over');
    expect(roomPhrase(entry, -12.1, 'gas')).toBe('13 min over');
  });

  it('is none, not less, where rounding alone misses it', () => {
    expect(roomPhrase(entry, 0.9, 'no-stop')).toBe('no room left');
    expect(roomPhrase(entry, -1e-12, 'no-stop')).toBe('no room left');
  });

  it('names the limit where there are no minutes', () => {
    const past = { ...entry, po2Bar: 1.7, cns: { ...entry.cns, after: null } };
    expect(roomPhrase(past, null, 'po2')).toBe('past the PO2 limit');
    expect(roomPhrase({ ...past, po2Bar: 1.2 }, null, 'po2')).toBe('CNS not known');
    expect(roomPhrase({ ...past, po2Bar: 1.2 }, null, 'no-stop')).toBe('past the no-stop limit');
    expect(roomPhrase(entry, null, 'mod')).toBe('past the MOD');
    expect(roomPhrase(entry, null, 'diver-depth')).toBe('past the diver’s depth limit');
  });
});
