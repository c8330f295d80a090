/**
 * Hours before flying.
 * Source: P. J. Sheffield, R. D. Vann (eds), DAN Flying After Recreational Diving Workshop, Proceedings,
 * May 2, 2002. Durham NC, 2004: at least 12 h after a single no-stop dive, 18 h after several dives or
 * days, "substantially longer than 18 h appears prudent" after required stops. Air, cabin altitude 610 to
 * 2438 m. Read in the organiser's own summary of the proceedings.
 */
import { expect, it } from 'vitest';
import { aDive, aLedger } from '../builders/trip';

function hoursAfter(...dives: Parameters<typeof aLedger>[0]): number {
  const diver = aLedger(dives).divers[0]!;
  return (diver.flight!.guideline.clearMin - diver.entries[diver.entries.length - 1]!.surfacesMin) / 60;
}

it('waits the published hours', () => {
  expect(hoursAfter(aDive())).toBe(12);
  expect(hoursAfter(aDive(), aDive({ startsAt: '2027-03-06T12:00' }))).toBe(18);
  expect(hoursAfter(aDive({ depthM: 30, bottomMin: 45 }))).toBeGreaterThan(18);
});

// R. D. Vann et al., Undersea Hyperb Med 2004;31(4):431-444: single dives to 60 fsw or deeper gave no DCS from
// 11 h on, repetitive dives did below 17 h, and none of 52 at 17 h.
it('waits longer than the chamber trials that still saw symptoms', () => {
  expect(hoursAfter(aDive())).toBeGreaterThanOrEqual(11);
  expect(hoursAfter(aDive(), aDive({ startsAt: '2027-03-06T12:00' }))).toBeGreaterThanOrEqual(17);
});
