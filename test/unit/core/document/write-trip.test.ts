import { describe, expect, it } from 'vitest';
import { readTrip } from '../../../../core/document/read-trip';
import { writeTrip } from '../../../../core/document/write-trip';
import type { Trip } from '../../../../core/document/types';
import { fixture, fixtureText } from '../../../support/trip-documents';

function tripOf(document: unknown): Trip {
  const result = readTrip(JSON.stringify(document));
  if (!result.ok) throw new Error(JSON.stringify(result.troubles));
  return result.value;
}

describe('writeTrip', () => {
  it('writes a full file as it stood, unknown keys in their places, two spaces and a line feed', () => {
    const text = writeTrip(tripOf(fixture('v3-full')));
    expect(JSON.parse(text)).toEqual(fixture('v3-full'));
    expect(text.split('\n')[1]).toBe('  "format": "carryover/trip",');
    expect(text.endsWith('}\n')).toBe(true);
  });

  it('writes the same trip as the same text, in whatever order its keys came', () => {
    const reversed = (value: unknown): unknown =>
      Array.isArray(value)
        ? value.map(reversed)
        : typeof value === 'object' && value !== null
          ? Object.fromEntries(
              Object.entries(value)
                .toReversed()
                .map(([key, each]) => [key, reversed(each)]),
            )
          : value;
    const { logbook: _, ...known } = fixture('v1-minimal');
    expect(writeTrip(tripOf(reversed(known)))).toBe(writeTrip(tripOf(known)));
  });

  it('keeps keys it does not know at every level', () => {
    const trip = JSON.parse(writeTrip(tripOf(fixture('v3-full'))));
    expect(trip.water.clarity).toBe('milky');
    expect(trip.party[1].cylinder.material).toBe('steel');
    expect(trip.mixes[1].bank).toBe('B');
    expect(trip.dives[0].weather).toEqual({ wind: 3 });
    expect(trip.flight.number).toBeNull();
    expect(trip.logbook).toEqual(['kept', 1, { by: 'somebody else' }]);
  });

  it('drops a key called __proto__, the one unknown key it does not carry along', () => {
    const text = fixtureText('v1-minimal').replace('{', '{"__proto__": {"polluted": true},');
    const result = readTrip(text);
    expect(result.ok).toBe(true);
    expect((result as { value: { polluted?: boolean } }).value.polluted).toBeUndefined();
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
    expect(writeTrip((result as { value: Trip }).value)).not.toContain('polluted');
  });
});
