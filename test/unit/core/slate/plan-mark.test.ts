import { crc32 } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { assert } from '../../../../core/result';
import { PT_PER_MM } from '../../../../core/slate/paper';
import { planMark } from '../../../../core/slate/plan-mark';
import { demoTrip } from '../../../../core/document/demo-trip';
import { readTrip } from '../../../../core/document/read-trip';
import type { Trip } from '../../../../core/document/types';
import { writeTrip } from '../../../../core/document/write-trip';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, faultsOf, layoutOf, textsOf } from '../../../support/slates';

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
    for (const kind of ['wet', 'trip', 'briefing', 'tags'] as const) {
      const { pages } = layoutOf(trip, { kind, paper: aPaper('A4'), diverIds: ['guest-1'] });
      for (const page of pages) {
        expect(
          textsOf(page)
            .map(({ text }) => text)
            .join(' '),
        ).toContain(`file version 2-${planMark(trip)}, page`);
      }
    }
  });
});

describe('the last line of a foot', () => {
  /** Of the widest days there are. */
  const printedOn = '2027-05-26';

  it.each(['A6', '4x6in'])('is one line on %s', (paper) => {
    const { pages } = layoutOf(demoTrip(), { paper: aPaper(paper), printedOn, diverIds: ['guest1'] });
    const mark = planMark(demoTrip());
    for (const [i, page] of pages.entries()) {
      expect(textsOf(page).at(-1)).toMatchObject({
        text: `Wed 26 May 2027, file version 2-${mark}, page ${i + 1}/${pages.length}`,
        sizePt: 11,
      });
    }
  });

  it('has the room it takes where there are so many pages that it breaks', () => {
    const party = Array.from({ length: 20 }, (_, i) => aDiver({ id: `g${i}`, name: `Guest ${i}` }));
    const dives = ['06', '09', '12', '15', '18'].map((hour) =>
      aDive({ id: hour, startsAt: `2027-03-06T${hour}:00`, depthM: 8 }),
    );
    const { pages } = layoutOf(aTrip(dives, { party }), {
      paper: aPaper('4x6in'),
      printedOn,
      onePerPage: true,
    });
    expect(pages.length).toBeGreaterThanOrEqual(100);
    expect(textsOf(pages.at(-1)!).at(-1)!.text).not.toContain('Wed 26 May');
    for (const page of pages.slice(-5)) expect(faultsOf(page, 6 * PT_PER_MM)).toEqual([]);
  });
});
