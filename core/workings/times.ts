import { siteOf } from '../document/site-of';
import { secondOpinions, type SecondOpinion } from '../ledger/second-opinion';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import { toleratedBar } from '../ascent/tolerated';
import { climbLines, climbNameSaid } from '../ledger/climb-said';
import { surfaceLimits } from '../ledger/nitrogen-outcome';
import type { FlightViews } from '../ledger/flight-views';
import { flightLines } from '../ledger/flight-said';
import { CLEAR_SHARE } from '../ledger/ledger';
import { bar, digits, minutes, minutesOut, momentText } from './digits';
import { compartmentStep, MODEL } from './nitrogen';
import type { Asked, Work, WorkingsStep } from './types';
import { atSurface, fallenBelow } from '../ledger/at-surface';
import { surroundingsOf } from '../profile';
import { SHORTEST_INTERVAL_MIN } from '../tables/data';
import { altitudeBar } from '../water';
import { momentAt, type WallMin } from '../words/calendar';
import { rounded } from '../words/quantity';
import { figure, said } from '../words/said';

/** Sums of leg times miss a whole minute by rounding alone. */
const SAME_MIN = 1e-6;

const TABLE =
  'U.S. Navy Diving Manual Revision 7 (2016), tables 9-7 and 9-8, and ch. 10 for the equivalent air depth';

/** A moment with the part of a minute it has, so that differences come out: "Fri 19 Mar 2027, 16:19 and 0.667 min". */
function momentStep(label: string, at: WallMin, { words }: Asked): WorkingsStep {
  const whole = Math.floor(at + SAME_MIN);
  const rest = at - whole;
  const text = momentText(whole, words);
  return { label, value: rest <= SAME_MIN ? text : `${text} and ${minutes(rest)}` };
}

/** Surface interval. Source: named in the workings. */
export const intervalWorkings: Work = (asked) => {
  const { entry } = asked;
  const { exposures } = entry.from;
  const shared = {
    title: 'Surface interval before the dive',
    formula: 'leaving the surface − surfacing from the dive before, its stops and ascent included',
    source: 'definition',
  };
  const surfaced = exposures[exposures.length - 1]?.endMin;
  const start = momentStep('Leaving the surface', entry.startMin, asked);
  if (surfaced === undefined) {
    return {
      ...shared,
      steps: [start, { label: 'Dive before', value: 'none' }],
      result: 'a first dive',
      exact: null,
    };
  }
  const exact = entry.startMin - surfaced;
  return {
    ...shared,
    steps: [momentStep('Surfacing from the dive before', surfaced, asked), start],
    result: minutesOut(exact),
    exact,
  };
};

/** Where the diver goes up after the last dive, no one fall leads to the time. */
function heightsSteps({ trip }: Asked, fromMin: WallMin): readonly WorkingsStep[] {
  const { stays } = atSurface(trip, surroundingsOf(trip).column.surfaceBar);
  if (!stays.some(({ toMin }) => toMin > fromMin)) return [];
  return [
    {
      label: 'Heights after the last dive',
      value: 'followed stretch by stretch, each with a rest of its own',
    },
  ];
}

/** How long the model's slowest compartment waits for the cabin; nothing where none has to. */
function cabinSteps(asked: Asked, { model, cabinBar }: FlightViews): readonly WorkingsStep[] {
  const { diverLedger, trip } = asked;
  const after = diverLedger.entries[diverLedger.entries.length - 1]?.after;
  if (model.clearMin === null || model.compartment === null || after === undefined) return [];
  const index = model.compartment - 1;
  const { high } = diverLedger.diver.gradient;
  return [
    compartmentStep(model.compartment, 'Compartment that waits longest, p falling to rest'),
    { label: 'Its p on surfacing', value: bar(after.tensions[index]!) },
    { label: 'Its p at rest', value: bar(AIR_N2 * inspiredBar(surroundingsOf(trip).column.surfaceBar)) },
    { label: `Tolerated in the cabin at ${bar(cabinBar)}`, value: bar(toleratedBar(index, cabinBar, high)) },
    ...heightsSteps(asked, after.atMin),
    { label: 'Time it waits', value: minutes(model.clearMin - after.atMin) },
  ];
}

/** When flying is clear. Source: named in the workings. */
export const flyWorkings: Work = (asked) => {
  const { diverLedger, words } = asked;
  const { flight } = diverLedger;
  const shared = {
    title: 'When flying is clear',
    formula:
      'the latest of: last surfacing + 12 h after one no-stop dive, 18 h after several dives or days, 24 h after required stops; last surfacing + the government table’s wait; the moment from which every compartment tolerates the cabin’s pressure, ln((p on surfacing − rest) / (tolerated − rest)) / k after it. Dives brought to the trip count',
    source:
      'P. J. Sheffield, R. D. Vann (eds), Flying After Recreational Diving (2004); U.S. Navy Diving Manual Revision 7 (2016), table 9-6; tolerated tensions after A. A. Buehlmann and E. C. Baker; bubbles even after 24 h: D. Cialoni et al., Aviat Space Environ Med 2014;85(10):993-998',
  };
  if (flight === null) return { ...shared, steps: [], result: 'no dives', exact: null };
  const views = flightLines(flight).map(({ name, clear, why, isLatest }): WorkingsStep => ({
    label: words(isLatest ? said`${name}, which counts` : said`${name}`),
    value: words(clear === null ? said`${why}` : said`${clear}: ${why}`),
  }));
  return {
    ...shared,
    steps: [
      momentStep('Last surfacing', flight.lastSurfacingMin, asked),
      ...views,
      ...cabinSteps(asked, flight),
      {
        label: 'To know',
        value: 'bubbles were found in some divers in flight even after 24 h: leave more where you can',
      },
    ],
    result: momentText(flight.clearMin, words),
    exact: flight.clearMin,
  };
};

/** When going up is clear, for every way up of the trip. Source: named in the workings. */
export const climbsWorkings: Work = (asked) => {
  const { diverLedger, trip, words } = asked;
  const shared = {
    title: 'When going up after dives is clear',
    formula:
      'for each way up the latest of: last surfacing before it + the published hours, from 300 m on; last surfacing + the government table’s wait; the moment from which every compartment tolerates P + GF (a + P/b − P) at the pressure up there',
    source:
      'P. J. Sheffield, R. D. Vann (eds), Flying After Recreational Diving (2004), taken for roads as well; U.S. Navy Diving Manual Revision 7 (2016), table 9-6; tolerated tensions after A. A. Buehlmann and E. C. Baker; pressure by ISO 2533',
  };
  const { climbs } = diverLedger;
  if (climbs.length === 0) return { ...shared, steps: [], result: 'no way up after dives', exact: null };
  const steps = climbs.flatMap((views, at): readonly WorkingsStep[] => {
    const numbered = (label: string): string => (climbs.length === 1 ? label : `${at + 1}. ${label}`);
    const { fromM, toM, dive } = views.climb;
    const site = (dive && siteOf(trip, dive)?.name) ?? '';
    return [
      {
        label: numbered(words(climbNameSaid(views, site))),
        value: words(
          said`${momentAt(views.climb.atMin)}, from ${figure('altitude', fromM)} (${bar(altitudeBar(fromM))}) to ${figure('altitude', toM)} (${bar(altitudeBar(toM))})`,
        ),
      },
      momentStep(numbered('Last surfacing before it'), views.lastSurfacingMin, asked),
      ...climbLines(views).map(({ name, clear, why, isLatest }): WorkingsStep => ({
        label: numbered(words(isLatest ? said`${name}, which counts` : said`${name}`)),
        value: words(clear === null ? said`${why}` : said`${clear}: ${why}`),
      })),
    ];
  });
  const last = climbs.at(-1)!;
  return { ...shared, steps, result: momentText(last.clearMin, words), exact: last.clearMin };
};

/** When the nitrogen of the trip is given off. Source: named in the workings. */
export const clearWorkings: Work = (asked) => {
  const { diverLedger, trip, words } = asked;
  const shared = {
    title: 'When the nitrogen of the trip is given off',
    formula:
      'last surfacing + ln((tension − rest) / (0.01 (tolerated − rest))) / k, the longest of the 16 compartments',
    source: `${MODEL}; to call 1 % of the way to the limit clear is this project’s`,
  };
  const last = diverLedger.entries[diverLedger.entries.length - 1]?.after;
  if (last === undefined) return { ...shared, steps: [], result: 'no dives', exact: null };
  const { column } = surroundingsOf(trip);
  const restBar = AIR_N2 * inspiredBar(column.surfaceBar);
  const limits = surfaceLimits(column, diverLedger.diver.gradient.high);
  const surface = atSurface(trip, column.surfaceBar);
  const bounds = limits.map((limit) => restBar + CLEAR_SHARE * (limit - restBar));
  const fallen = fallenBelow(last, bounds, surface);
  if ('never' in fallen) return { ...shared, steps: [], result: 'never at this height', exact: null };
  const exact = fallen.atMin;
  const slowest = { index: (fallen.compartment ?? 0) - 1, min: exact - last.atMin };
  const surfacing = momentStep('Last surfacing', last.atMin, asked);
  const compartment: readonly WorkingsStep[] =
    slowest.index === -1
      ? []
      : [
          compartmentStep(slowest.index + 1, 'Compartment that takes longest'),
          { label: 'Its tension on surfacing', value: bar(last.tensions[slowest.index]!) },
          { label: 'At rest', value: bar(restBar) },
          { label: 'Tolerated at the surface', value: bar(limits[slowest.index]!) },
          ...heightsSteps(asked, last.atMin),
          { label: 'Time it takes', value: minutes(slowest.min) },
        ];
  return { ...shared, steps: [surfacing, ...compartment], result: momentText(exact, words), exact };
};

function verdict({ isWithin, groupAfter, equivalentMin, limitMin, unlimited }: SecondOpinion): string {
  if (isWithin === null) return 'the table does not tell';
  const limit = unlimited ? 'no limit at this depth' : `${equivalentMin} of ${limitMin} min`;
  return `${limit}: ${isWithin ? 'within' : 'past'} the limit, group ${groupAfter} afterwards`;
}

/** The second opinion. Source: named in the workings. */
export const secondOpinionWorkings: Work = ({ entry, diverLedger, trip }) => {
  const opinion = secondOpinions(diverLedger, trip)[diverLedger.entries.indexOf(entry)]!;
  const { depthFsw, rowFsw, groupBefore, residualMin, equivalentMin, limitMin, unlimited, reason, agrees } =
    opinion;
  const { joined } = opinion;
  const steps: WorkingsStep[] = [];
  if (depthFsw !== null) steps.push({ label: 'Equivalent air depth', value: `${digits(depthFsw, 1)} fsw` });
  if (entry.intervalMin !== null)
    steps.push({ label: 'Surface interval', value: minutes(entry.intervalMin) });
  if (joined !== null) {
    steps.push({
      label: `Under ${SHORTEST_INTERVAL_MIN} min it counts as one dive with that before; the deepest of them`,
      value: `${digits(joined.depthFsw, 1)} fsw`,
    });
  }
  if (rowFsw !== null) steps.push({ label: 'Row of the table', value: `${rowFsw} fsw` });
  if (depthFsw !== null) {
    const when = joined === null ? 'at the end of the interval' : 'before the first of them';
    steps.push({ label: `Group ${when}`, value: groupBefore ?? 'none: a first dive' });
  }
  if (residualMin !== null) steps.push({ label: 'Residual nitrogen time', value: `${residualMin} min` });
  if (equivalentMin !== null) {
    steps.push({
      // As fine as it is, and up: 5.03 min are six whole ones, as 5.00004 are.
      label: `With ${rounded(joined?.bottomMin ?? entry.bottomMin, 3, 'up')} min of bottom time${joined === null ? '' : ' together'}, rounded up`,
      value: `${equivalentMin} min`,
    });
  }
  if (limitMin !== null || unlimited) {
    steps.push({ label: 'No-stop limit of the row', value: limitMin === null ? 'none' : `${limitMin} min` });
  }
  if (reason !== null) steps.push({ label: 'Note', value: reason });
  if (agrees !== null) steps.push({ label: 'The model says the same', value: agrees ? 'yes' : 'no' });
  steps.push({
    label: 'To know',
    value: 'the table takes every dive as square and rounds up at each step: another view, not an alarm',
  });
  return {
    title: 'Second opinion: the government air table, by hand',
    formula: 'residual nitrogen time + bottom time, held against the no-stop limit of the row',
    steps,
    result: verdict(opinion),
    exact: equivalentMin,
    source: TABLE,
  };
};
