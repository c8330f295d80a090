/** Which of the two limits a clock counts against. */
export type OxygenClock = 'single' | 'daily';

/** A row of the table of exposure limits. */
export interface OxygenLimit {
  readonly po2Bar: number;
  readonly singleMin: number;
  readonly dailyMin: number;
}

/**
 * Oxygen partial pressure limits for normal exposure: minutes in one exposure and in any 24 hours.
 * Printed in atmospheres and read as bar here, which is 1.3 % more careful.
 * Source: NOAA Diving Manual, 3rd ed. (1991) to 6th ed. (2017), "Normal Exposure Oxygen Partial Pressure
 * Limits" (table 15.1 in the later editions), after F. K. Butler, E. D. Thalmann (1986). Eight of the cells
 * were seen quoted from the manual, the rest are from memory: test/published/oxygen-and-gas/README.md says which.
 */
export const NOAA_LIMITS: readonly OxygenLimit[] = [
  { po2Bar: 0.6, singleMin: 720, dailyMin: 720 },
  { po2Bar: 0.7, singleMin: 570, dailyMin: 570 },
  { po2Bar: 0.8, singleMin: 450, dailyMin: 450 },
  { po2Bar: 0.9, singleMin: 360, dailyMin: 360 },
  { po2Bar: 1.0, singleMin: 300, dailyMin: 300 },
  { po2Bar: 1.1, singleMin: 240, dailyMin: 270 },
  { po2Bar: 1.2, singleMin: 210, dailyMin: 240 },
  { po2Bar: 1.3, singleMin: 180, dailyMin: 210 },
  { po2Bar: 1.4, singleMin: 150, dailyMin: 180 },
  { po2Bar: 1.5, singleMin: 120, dailyMin: 180 },
  { po2Bar: 1.6, singleMin: 45, dailyMin: 150 },
];

/** At or below this nothing counts, for CNS and lungs alike. Source: common practice with the table and the UPTD. */
export const EXPOSURE_FROM_BAR = 0.5;

/** The table's last row: above it there is no limit to divide by. Source: the table above. */
export const LAST_LIMIT_BAR = 1.6;

/** Between these pressures a limit is linear; the first piece holds the 0.6 row down to 0.5. */
export interface LimitSpan {
  readonly fromBar: number;
  readonly toBar: number;
  readonly fromLimitMin: number;
  readonly toLimitMin: number;
  /** What the limit changes by over the span, minutes a bar. */
  readonly minPerBar: number;
}

function spansOf(column: 'singleMin' | 'dailyMin'): readonly LimitSpan[] {
  const firstMin = NOAA_LIMITS[0]![column];
  const rows = [{ po2Bar: EXPOSURE_FROM_BAR, limitMin: firstMin }].concat(
    NOAA_LIMITS.map((row) => ({ po2Bar: row.po2Bar, limitMin: row[column] })),
  );
  return rows.slice(1).map((row, index) => {
    const from = rows[index]!;
    return {
      fromBar: from.po2Bar,
      toBar: row.po2Bar,
      fromLimitMin: from.limitMin,
      toLimitMin: row.limitMin,
      minPerBar: (row.limitMin - from.limitMin) / (row.po2Bar - from.po2Bar),
    };
  });
}

/** The straight pieces of each clock's limit, from 0.5 to 1.6 bar. */
export const LIMIT_SPANS: Readonly<Record<OxygenClock, readonly LimitSpan[]>> = {
  single: spansOf('singleMin'),
  daily: spansOf('dailyMin'),
};

/**
 * The limit at a pressure that lies within a span, ends included.
 * @param po2 bar
 * @returns minutes, linear between the ends
 * Source: E. C. Baker, "Oxygen toxicity calculations" (straight lines between the rows).
 */
export function limitWithin(span: LimitSpan, po2: number): number {
  return span.fromLimitMin + span.minPerBar * (po2 - span.fromBar);
}

/**
 * How long an oxygen pressure may be breathed.
 * @param po2 bar, 0 or more
 * @returns minutes; Infinity at or below 0.5, where nothing counts; null above 1.6, where no limit exists.
 *   Linear between the rows; the 0.6 row holds from 0.5 to 0.6.
 * Source: the table above; straight lines between its rows as in E. C. Baker, "Oxygen toxicity calculations".
 */
export function limitMin(po2: number, clock: OxygenClock): number | null {
  if (po2 <= EXPOSURE_FROM_BAR) return Infinity;
  const pressure = withoutDust(po2);
  if (pressure === null) return null;
  const span = LIMIT_SPANS[clock].find((each) => pressure <= each.toBar)!;
  return limitWithin(span, pressure);
}

/**
 * A pressure that passes 1.6 bar by rounding alone (0.4 * 4.000000000000001) as 1.6.
 * @param po2 bar
 * @returns bar, at most 1.6; null where it is truly above
 * Source: arithmetic.
 */
export function withoutDust(po2: number): number | null {
  if (po2 <= LAST_LIMIT_BAR) return po2;
  return po2 <= LAST_LIMIT_BAR + 1e-9 ? LAST_LIMIT_BAR : null;
}
