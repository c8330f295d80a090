/**
 * Whole-body oxygen allowed in all on the days 1 to 10 of a mission, OTU; 300 a day after that.
 * Source: R. W. Hamilton, D. J. Kenyon, R. E. Peterson, "Repex habitat diving procedures", NOAA Technical
 * Report 88-1B (1988). The rows are from memory, with the printed daily averages as a check.
 */
const OTU_TOTALS: readonly number[] = [850, 1400, 1860, 2100, 2300, 2520, 2660, 2800, 2970, 3100];
const OTU_A_LATER_DAY = 300;

/**
 * OTU that a diver may have taken in all by the end of a day of the trip.
 * @param dayOfTrip 1 for the first day with a dive; rest days count
 * @returns OTU: the row of that day; 300 a day from the eleventh on
 * Source: as `OTU_TOTALS`.
 */
export function otuTotalAllowed(dayOfTrip: number): number {
  return OTU_TOTALS[dayOfTrip - 1] ?? OTU_A_LATER_DAY * dayOfTrip;
}

/**
 * OTU left for a day, so that the running total never passes its row.
 * @param dayOfTrip 1 for the first day with a dive @param otuBefore OTU of all days before this one
 * @returns OTU; negative where the days before took more than the row gives
 * Source: as `OTU_TOTALS`.
 */
export function otuAllowedToday(dayOfTrip: number, otuBefore: number): number {
  return otuTotalAllowed(dayOfTrip) - otuBefore;
}

/**
 * K-index advised a day: at most so many diving days, and K. The last line is for more days without days of
 * recovery, printed as "about 40-50" and taken at its lower end.
 * Source: J. Risberg, P.-J. van Ooij, "Hyperoxic exposure monitoring in diving: a farewell to the UPTD",
 * Undersea Hyperb Med 2022;49(4), abstract.
 */
const K_ADVISED = [
  { upToDays: 2, k: 120 },
  { upToDays: 5, k: 70 },
  { upToDays: Infinity, k: 40 },
] as const;

/**
 * Equivalent surface oxygen time advised a day.
 * @param divingDays number of days with dives, 1 or more
 * @returns minutes: 60 sqrt(K), which is 657 up to two days, 502 up to five, 379 beyond
 * Source: as `K_ADVISED`.
 */
export function esotAdvised(divingDays: number): number {
  const row = K_ADVISED.find((each) => divingDays <= each.upToDays)!;
  return 60 * Math.sqrt(row.k);
}
