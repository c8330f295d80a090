/**
 * Height after diving.
 * Sources: U.S. Navy Diving Manual, SS521-AG-PRO-010, Revision 7 (1 December 2016), table 9-6, as transcribed (see
 * README.md here); ISO 2533:1975; A. A. Buehlmann, Tauchmedizin (1995, 2002), for the linear law. A published worked
 * ascent to altitude after diving was found for the table of 1999 alone, and none for this model.
 */
import { describe, expect, it } from 'vitest';
import { toleratedTensions } from '../../core/ascent/tolerated';
import { ALTITUDE_STEPS_FT, ALTITUDE_WAITS, GROUPS, type Group } from '../../core/tables/data';
import { altitudeWaitMin, printedMin } from '../../core/tables/procedure';
import { restTensions } from '../../core/tissues/compartments';
import { M_PER_FOOT } from '../../core/units';
import { altitudeBar, SEA_LEVEL_BAR } from '../../core/water';
import { aDive, aLedger } from '../builders/trip';

/** Group, then the wait before a climb of 1,000 to 10,000 ft, as printed. */
const TABLE_9_6 = `
  A 0:00 0:00 0:00 0:00 0:00 0:00 0:00 0:00 0:00 0:00
  B 0:00 0:00 0:00 0:00 0:00 0:00 0:00 0:00 0:00 1:42
  C 0:00 0:00 0:00 0:00 0:00 0:00 0:00 0:00 1:48 6:23
  D 0:00 0:00 0:00 0:00 0:00 0:00 0:00 1:45 5:24 9:59
  E 0:00 0:00 0:00 0:00 0:00 0:00 1:37 4:39 8:18 12:54
  F 0:00 0:00 0:00 0:00 0:00 1:32 4:04 7:06 10:45 15:20
  G 0:00 0:00 0:00 0:00 1:19 3:38 6:10 9:13 12:52 17:27
  H 0:00 0:00 0:00 1:06 3:10 5:29 8:02 11:04 14:43 19:18
  I 0:00 0:00 0:56 2:45 4:50 7:09 9:41 12:44 16:22 20:58
  J 0:00 0:41 2:25 4:15 6:19 8:39 11:11 14:13 17:52 22:27
  K 0:30 2:03 3:47 5:37 7:41 10:00 12:33 15:35 19:14 23:49
  L 1:45 3:18 5:02 6:52 8:56 11:15 13:48 16:50 20:29 25:04
  M 2:54 4:28 6:12 8:01 10:06 12:25 14:57 18:00 21:38 26:14
  N 3:59 5:32 7:16 9:06 11:10 13:29 16:02 19:04 22:43 27:18
  O 4:59 6:33 8:17 10:06 12:11 14:30 17:02 20:05 23:43 28:19
  Z 5:56 7:29 9:13 11:03 13:07 15:26 17:59 21:01 24:40 29:15`;

describe('table 9-6', () => {
  const printed = TABLE_9_6.trim()
    .split('\n')
    .map((line) => line.trim().split(' '));

  it('is as printed, cell by cell', () => {
    expect(printed.map(([group]) => group)).toEqual(GROUPS);
    expect(ALTITUDE_STEPS_FT).toEqual(Array.from({ length: 10 }, (_, i) => 1000 * (i + 1)));
    for (const [group, ...waits] of printed) {
      expect(waits).toHaveLength(10);
      expect(ALTITUDE_WAITS[group as Group]).toEqual(waits);
      waits.forEach((wait, i) =>
        expect(altitudeWaitMin(group as Group, 1000 * (i + 1))).toBe(printedMin(wait)),
      );
    }
  });

  it('waits for a road as it waits for a cabin: a dive of group K and a climb to 2,100 m read at 7,000 ft', () => {
    // 60 fsw for 60 min is K; 2,100 m are 6,890 ft: 12:33.
    const depthM = (60 * 0.030643 * 1e5) / (1025 * 9.80665) - 0.001;
    const { divers } = aLedger([aDive({ depthM, bottomMin: 60 })], {
      events: [{ id: 'e', title: 'Pass', from: '2027-03-06T12:00', to: '2027-03-06T13:00', altitudeM: 2100 }],
    });
    expect(divers[0]!.climbs[0]!.table).toMatchObject({ group: 'K', waitMin: printedMin('12:33') });
  });
});

describe('the standard atmosphere', () => {
  // ISO 2533:1975, its closed form worked out apart from this code; 8,000 ft is the usual 0.753 bar.
  it.each([
    [609.6, 0.94213],
    [1000, 0.89875],
    [1524, 0.84307],
    [2100, 0.78513],
    [8000 * M_PER_FOOT, 0.75262],
    [3048, 0.69682],
  ])('has at %d m a pressure of %d bar', (metres, bar) => {
    expect(Math.abs(altitudeBar(metres) - bar)).toBeLessThan(0.5e-5);
  });
});

describe('the model at the pressure of a cabin', () => {
  // The linear law P + GF (a + P / b - P) at 0.75262 bar with the coefficients of 1995, worked out apart from this code.
  const AT_1 = [
    2.5189, 2.1554, 1.9039, 1.718, 1.5462, 1.3967, 1.3068, 1.2447, 1.2028, 1.1661, 1.1371, 1.1069, 1.0777,
    1.0496, 1.0318, 1.0124,
  ];
  const AT_08 = [
    2.1656, 1.8748, 1.6737, 1.5249, 1.3875, 1.2679, 1.1959, 1.1463, 1.1128, 1.0834, 1.0602, 1.036, 1.0126,
    0.9902, 0.976, 0.9604,
  ];

  it('tolerates what the law says, and more than rest at sea level in every compartment', () => {
    for (const [gradient, printed] of [
      [1, AT_1],
      [0.8, AT_08],
    ] as const) {
      const tolerated = toleratedTensions(0.75262, gradient);
      tolerated.forEach((bar, i) => expect(Math.abs(bar - printed[i]!)).toBeLessThan(0.6e-4));
      expect(Math.min(...tolerated)).toBeGreaterThan(0.2 + restTensions(SEA_LEVEL_BAR)[0]!);
    }
  });
});
