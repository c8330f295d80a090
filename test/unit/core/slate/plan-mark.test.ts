import { crc32 } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { assert } from '../../../../core/result';
import { planMark } from '../../../../core/slate/plan-mark';
import { demoTrip } from '../../../../core/document/demo-trip';
import { readTrip } from '../../../../core/document/read-trip';
import type { Trip } from '../../../../core/document/types';
import { writeTrip } from '../../../../core/document/write-trip';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, layoutOf, textsOf } from '../../../support/slates';

function reread(text: string): Trip {
  const read = readTrip(text);
  assert(read.ok, 'not read');
  return read.value;
}

describe('planMark', () => {
  it('is the lower half of the CRC-32 of the trip’s file', () => {
    const trip = aTrip([aDive({ id: 'x' })], { title: 'Ténérife, Ώρα' });
    const crc = crc32(Buffer.from(writeTrip(trip), 'utf8'));
    expect(planMark(trip)).toBe(crc.toString(16).padStart(8, '0').slice(4));
  });

  it('is the same for the same plan, saved, opened, copied or with its keys in another order', () => {
    const mark = planMark(demoTrip());
    expect(mark).toMatch(/^[0-9a-f]{4}$/);
    expect(planMark(reread(writeTrip(demoTrip())))).toBe(mark);
    expect(planMark(structuredClone(demoTrip()))).toBe(mark);
    const turned = Object.fromEntries(Object.entries(demoTrip()).toReversed());
    expect(planMark(reread(JSON.stringify(turned)))).toBe(mark);
  });

  it('is another after an edit', () => {
    const trip = demoTrip();
    const [first, ...others] = trip.dives;
    const marks = [
      trip,
      { ...trip, notes: `${trip.notes} ` },
      { ...trip, dives: others },
      { ...trip, dives: [{ ...first!, bottomMin: first!.bottomMin + 1 }, ...others] },
    ].map(planMark);
    expect(new Set(marks).size).toBe(marks.length);
  });

  it('stands at the foot whoever and whatever is printed, and does not hang on the font', () => {
    const trip = aTrip([aDive({ id: 'x' })], {
      party: [aDiver({ name: '山田' }), aDiver({ id: 'guest-2' })],
    });
    for (const kind of ['card', 'trip', 'briefing', 'tags'] as const) {
      const { pages } = layoutOf(trip, { kind, paper: aPaper('A4'), diverIds: ['guest-1'] });
      for (const page of pages) {
        expect(
          textsOf(page)
            .map(({ text }) => text)
            .join(' '),
        ).toContain(kind === 'card' ? `plan ${planMark(trip)}` : `file version 3-${planMark(trip)}, page`);
      }
    }
  });
});
