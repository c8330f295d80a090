import { CNS_HALF_TIME_MIN, cnsAfterInterval, cnsFraction } from '../oxygen/cns';
import { dayPeak, dayShareAt } from '../oxygen/cns-day';
import type { ClockPiece } from '../oxygen/clock-pieces';
import { esot } from '../oxygen/esot';
import { otu } from '../oxygen/otu';
import { dayNumber, wallText } from '../words/calendar';
import { digits, legSteps, minutes, momentText, percent } from './digits';
import { oxygenStep } from './mix';
import type { Asked, Work, WorkingsStep } from './types';

const NOAA = 'NOAA Diving Manual, oxygen partial pressure limits for normal exposure';
const DECAY =
  'the clock halves every 90 min at the surface: a convention of the trade, published only as an unvalidated assumption';
const OTU =
  'J. M. Clark, C. J. Lambertsen, Pharmacol Rev 1971;23:37-133; sloping legs after E. C. Baker, "Oxygen toxicity calculations"';
const ESOT =
  'J. Risberg, P.-J. van Ooij, "Hyperoxic exposure monitoring in diving: a farewell to the UPTD", Undersea Hyperb Med 2022;49(4)';

/** Above 1.6 bar, or after such a dive. */
const UNKNOWN = 'no figure: PO2 passed 1.6 bar, where no limit exists';

function po2Of({ o2 }: Asked, fromBar: number, toBar: number): string {
  const from = digits(o2 * fromBar, 3);
  return fromBar === toBar ? `${from} bar` : `${from} to ${digits(o2 * toBar, 3)} bar`;
}

/** CNS clock before the dive. Source: named in the workings. */
export const cnsBeforeWorkings: Work = ({ entry }) => {
  const { from } = entry;
  const sinceMin = Math.max(0, entry.startMin - from.atMin);
  const shared = {
    title: 'CNS clock before the dive',
    formula: `after the dive before × 2^(−minutes / ${CNS_HALF_TIME_MIN})`,
    source: DECAY,
  };
  if (from.cns === null) return { ...shared, steps: [], result: UNKNOWN, exact: null };
  if (sinceMin === Infinity) {
    return { ...shared, steps: [{ label: 'Dive before', value: 'none' }], result: percent(0), exact: 0 };
  }
  const exact = cnsAfterInterval(from.cns, sinceMin);
  return {
    ...shared,
    steps: [
      { label: 'After the dive before', value: percent(from.cns, 3) },
      { label: 'At the surface since', value: minutes(sinceMin) },
    ],
    result: percent(exact, 2),
    exact,
  };
};

/** CNS clock after the dive. Source: named in the workings. */
export const cnsAfterWorkings: Work = (asked) => {
  const { entry, o2 } = asked;
  const shared = {
    title: 'CNS clock after the dive',
    formula:
      'before + the sum over the legs of ∫ dt / limit(PO2), limits linear between the rows of the table',
    source: `${NOAA}; closed form after E. C. Baker, "Oxygen toxicity calculations"; ${DECAY}`,
  };
  const shares = entry.legs.map((leg) => cnsFraction([leg], o2, 'single'));
  const { before } = entry.cns;
  if (before === null || shares.some((share) => share === null)) {
    return { ...shared, steps: [oxygenStep(asked)], result: UNKNOWN, exact: null };
  }
  const exact = shares.reduce<number>((sum, share) => sum + (share ?? 0), before);
  const legs = legSteps(
    entry.legs,
    (leg) =>
      `PO2 ${po2Of(asked, leg.fromBar, leg.toBar)}: ${percent(cnsFraction([leg], o2, 'single') ?? 0, 3)}`,
  );
  return {
    ...shared,
    steps: [oxygenStep(asked), { label: 'Before the dive', value: percent(before, 3) }, ...legs],
    result: percent(exact, 2),
    exact,
  };
};

/** Peak of the rolling 24 h clock. Source: named in the workings. */
export const cnsDayWorkings: Work = ({ entry, words }) => {
  const shared = {
    title: 'Oxygen limit of any 24 hours, at its highest during the dive',
    formula:
      'the sum of ∫ dt / daily limit(PO2) over the 24 hours that end at each moment of the dive, the largest',
    source: `${NOAA}, in any 24 hours; this clock does not decay`,
  };
  const startMin = entry.startMin;
  const earlier = entry.from.exposures.filter((exposure) => exposure.endMin > startMin - 1440);
  const pieces = entry.exposure?.pieces ?? null;
  if (pieces === null || earlier.some((exposure) => exposure.pieces === null)) {
    return { ...shared, steps: [], result: UNKNOWN, exact: null };
  }
  const earlierPieces = earlier.flatMap((exposure): readonly ClockPiece[] => exposure.pieces ?? []);
  const exact = dayPeak(earlierPieces, pieces, startMin);
  // All of it, but of a dive that with its stops lasts more than a day.
  const own = dayShareAt(pieces, entry.surfacesMin);
  const steps: WorkingsStep[] = earlier.map((exposure) => ({
    label: `The dive of ${momentText(exposure.startMin, words)}, what the 24 h to the end of this dive hold of it`,
    value: percent(dayShareAt(exposure.pieces ?? [], entry.surfacesMin), 3),
  }));
  steps.push({ label: 'This dive', value: percent(own, 3) });
  const atEnd = dayShareAt([...earlierPieces, ...pieces], entry.surfacesMin);
  if (exact > atEnd + 1e-9) {
    steps.push({
      label: 'Higher earlier in the dive, before an old share left the 24 hours, by',
      value: percent(exact - atEnd, 3),
    });
  }
  return { ...shared, steps, result: percent(exact, 2), exact };
};

function summed(asked: Asked, dose: (asked: Asked, legs: Asked['entry']['legs']) => number, unit: string) {
  const { entry } = asked;
  const exact = entry.legs.reduce((sum, leg) => sum + dose(asked, [leg]), 0);
  const legs = legSteps(
    entry.legs,
    (leg) => `PO2 ${po2Of(asked, leg.fromBar, leg.toBar)}: ${digits(dose(asked, [leg]), 3)}${unit}`,
  );
  return { steps: [oxygenStep(asked), ...legs], result: `${digits(exact, 2)}${unit}`, exact };
}

/** OTU of the dive. Source: named in the workings. */
export const otuDiveWorkings: Work = (asked) => ({
  title: 'Oxygen tolerance units (OTU) of the dive',
  formula: 'the sum over the legs of ∫ ((PO2 − 0.5) / 0.5)^(5/6) dt above 0.5 bar',
  source: OTU,
  ...summed(asked, ({ o2 }, legs) => otu(legs, o2), ''),
});

/** ESOT of the dive. Source: named in the workings. */
export const esotDiveWorkings: Work = (asked) => ({
  title: 'Equivalent surface oxygen time (ESOT) of the dive',
  formula: 'the sum over the legs of ∫ PO2^2.285 dt above 0.5 bar',
  source: ESOT,
  ...summed(asked, ({ o2 }, legs) => esot(legs, o2), ' min'),
});

function carriedDose({ entry }: Asked, dose: 'otu' | 'esot', sinceDay: number): number {
  const today = dayNumber(entry.startMin);
  return entry.from.doses
    .filter(({ day }) => day >= sinceDay && day <= today)
    .reduce((sum, each) => sum + each[dose], 0);
}

function added(asked: Asked, dose: 'otu' | 'esot', sinceDay: number, unit: string) {
  const before = carriedDose(asked, dose, sinceDay);
  const own = dose === 'otu' ? otu(asked.entry.legs, asked.o2) : esot(asked.entry.legs, asked.o2);
  const exact = before + own;
  return {
    steps: [
      { label: 'Dives before', value: `${digits(before, 3)}${unit}` },
      { label: 'This dive', value: `${digits(own, 3)}${unit}` },
    ],
    result: `${digits(exact, 2)}${unit}`,
    exact,
  };
}

/** OTU of the day so far, beside its allowance. Source: named in the workings. */
export const otuDayWorkings: Work = (asked) => {
  const date = wallText(asked.entry.startMin).slice(0, 10);
  const allowed = asked.diverLedger.days.find((day) => day.date === date)?.otuAllowed;
  const sum = added(asked, 'otu', dayNumber(asked.entry.startMin), '');
  return {
    title: 'OTU of the day, up to and with this dive',
    formula:
      'the day’s dives added up; allowed: the total for this day of the trip less what the days before took',
    ...sum,
    steps: [
      ...sum.steps,
      ...(allowed === undefined ? [] : [{ label: 'Allowed on this day', value: digits(allowed, 1) }]),
    ],
    source: `${OTU}; R. W. Hamilton, D. J. Kenyon, R. E. Peterson, NOAA Technical Report 88-1B (1988)`,
  };
};

/** OTU of the trip so far. Source: named in the workings. */
export const otuTripWorkings: Work = (asked) => ({
  title: 'OTU of the trip, up to and with this dive',
  formula: 'all dives added up, those before the trip included',
  ...added(asked, 'otu', -Infinity, ''),
  source: OTU,
});

/** ESOT of the day so far. Source: named in the workings. */
export const esotDayWorkings: Work = (asked) => ({
  title: 'ESOT of the day, up to and with this dive',
  formula: 'the day’s dives added up',
  ...added(asked, 'esot', dayNumber(asked.entry.startMin), ' min'),
  source: ESOT,
});
