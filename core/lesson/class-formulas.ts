/** The figures of the class as they are worked out on a blackboard: formula, the numbers of each mix put in, result. */
import { AIR_O2 } from '../gas';
import { limitingCompartment } from '../ascent/no-stop-limit';
import type { Trip } from '../document/types';
import { planOf } from '../ledger/dive-plan';
import { minimumGasOf, reckonedOf } from '../ledger/gas-outcome';
import { ledger } from '../ledger/ledger';
import type { Entry } from '../ledger/ledger-types';
import { CLASS_DIVER, CLASS_MIN, classTrip } from '../mixes/class-dive';
import { richestMix } from '../mixes/richest';
import { cnsFraction } from '../oxygen/cns';
import { limitMin } from '../oxygen/limits';
import { otu } from '../oxygen/otu';
import { surroundingsOf } from '../profile';
import { assert } from '../result';
import { COMPARTMENTS } from '../tissues/compartments';
import { ambientBar } from '../water';
import { fraction, raised, type Formula } from '../words/formula';
import { figure, NOTHING, said, worked, type Said } from '../words/said';
import { stayOf } from '../workings/nitrogen';

/** One figure of one mix: what is put in and what comes out, as it rounds. */
export interface PutIn {
  readonly put: Formula;
  /** Unrounded, in what core reckons in; null where there is no figure. */
  readonly exact: number | null;
  readonly result: Said;
}

export interface ClassFormula {
  readonly title: Said;
  readonly formula: Formula;
  /** What the letters stand for. */
  readonly where: Said;
  /** One a mix in their order; one alone where it is the same for all. */
  readonly mixes: readonly PutIn[];
}

export interface ClassFormulas {
  /** Over all: the depth and the pressure there. */
  readonly pressure: { readonly formula: Formula; readonly put: Formula };
  readonly rows: readonly ClassFormula[];
}

/** Digits with which a sum done by hand comes out as the figure does. Source: choice of this project. */
const BAR_DIGITS = 4;
const LEG_DIGITS = 3;

interface Of {
  readonly entry: Entry;
  readonly trip: Trip;
  readonly o2: number;
  /** Ambient pressure at the depth, bar. */
  readonly bar: number;
}

/** The leg at the depth. */
function levelOf({ entry }: Of): Entry['legs'][number] {
  const level = entry.legs.find(({ kind }) => kind === 'level');
  assert(level !== undefined, 'a dive of the class has its level');
  return level;
}

function po2({ entry, o2, bar }: Of): PutIn {
  const exact = entry.po2Bar;
  return {
    put: [worked(o2, 2), '×', worked(bar, BAR_DIGITS)],
    exact,
    result: said`${figure('po2Met', exact)}`,
  };
}

function mod({ entry, trip, o2 }: Of): PutIn {
  const { column } = surroundingsOf(trip);
  const { working } = entry.diver.po2;
  const exact = entry.modM;
  return {
    put: [
      fraction(
        [fraction([worked(working, 1)], [worked(o2, 2)]), '−', worked(column.surfaceBar, BAR_DIGITS)],
        [worked(column.barPerM, BAR_DIGITS + 1)],
      ),
    ],
    exact,
    result: said`${figure('depthLimit', exact)}`,
  };
}

function ead({ entry, trip, o2, bar }: Of): PutIn {
  const { column } = surroundingsOf(trip);
  const exact = entry.eadM;
  return {
    put: [
      fraction(
        [
          fraction([worked(bar, BAR_DIGITS), '×', worked(1 - o2, 2)], [worked(1 - AIR_O2, 2)]),
          '−',
          worked(column.surfaceBar, BAR_DIGITS),
        ],
        [worked(column.barPerM, BAR_DIGITS + 1)],
      ),
    ],
    exact,
    result: said`${figure('depthMet', exact)}`,
  };
}

function richest({ entry, trip, bar }: Of): PutIn {
  const { o2, limit } = richestMix(entry.depthM, entry.diver, trip, surroundingsOf(trip));
  const { working } = entry.diver.po2;
  const ceiling = limit === 'ceiling' ? said`, no more than the ceiling` : NOTHING;
  return {
    put: [fraction([worked(working, 1)], [worked(bar, BAR_DIGITS)])],
    exact: working / bar,
    result: said`${figure('oxygenLimit', o2)}${ceiling}`,
  };
}

function noStop(of: Of): PutIn {
  const stay = stayOf(of, null);
  const found = limitingCompartment(stay);
  if (found === null) return { put: ['I < L'], exact: null, result: said`no limit` };
  const { halfTimeMin } = COMPARTMENTS[found.compartment - 1]!;
  const inspired = worked(stay.inspiredN2Bar, BAR_DIGITS);
  const exact = of.entry.noStopMin;
  return {
    put: [
      worked(stay.arrivalMin, 2),
      '+',
      fraction([worked(halfTimeMin, Number.isInteger(halfTimeMin) ? 0 : 1)], ['ln 2']),
      '× ln',
      fraction(
        [inspired, '−', worked(found.tensionBar, BAR_DIGITS)],
        [inspired, '−', worked(found.limitBar, BAR_DIGITS)],
      ),
    ],
    exact,
    result: exact === null ? said`no limit` : said`${figure('minutesLeft', exact)}`,
  };
}

function cns(of: Of): PutIn {
  const { entry, o2, bar } = of;
  const level = levelOf(of);
  const ways = entry.legs.filter((leg) => leg !== level);
  const limit = limitMin(o2 * bar, 'single');
  const rest = cnsFraction(ways, o2, 'single');
  const exact = entry.cns.after;
  if (exact === null || limit === null || rest === null) {
    return { put: [said`above 1.6 bar`], exact: null, result: said`no figure` };
  }
  const restSaid = worked(rest, BAR_DIGITS);
  return {
    put:
      limit === Infinity
        ? [worked(0, 0), '+', restSaid]
        : [fraction([worked(level.min, 2)], [worked(limit, 1)]), '+', restSaid],
    exact,
    result: said`${figure('shareMet', exact)}`,
  };
}

function otuOf(of: Of): PutIn {
  const { entry, o2, bar } = of;
  const level = levelOf(of);
  const rest = otu(
    entry.legs.filter((leg) => leg !== level),
    o2,
  );
  const exact = otu(entry.legs, o2);
  const over = o2 * bar - 0.5;
  return {
    put:
      over <= 0
        ? [worked(0, 0), '+', worked(rest, LEG_DIGITS)]
        : [
            worked(level.min, LEG_DIGITS),
            '×',
            raised(['(', fraction([worked(over, BAR_DIGITS)], [worked(0.5, 1)]), ')'], [fraction([5], [6])]),
            '+',
            worked(rest, LEG_DIGITS),
          ],
    exact,
    result: said`${figure('doseMet', exact)} OTU`,
  };
}

function minimum({ entry, trip, o2 }: Of): PutIn {
  const plan = planOf(trip, entry);
  const found = minimumGasOf(plan, reckonedOf(plan, entry).stops, entry.diver, o2, trip.settings.gasLaw);
  if (found === null) return { put: ['–'], exact: null, result: said`no way up on this gas` };
  const { waterL, reserveBar } = entry.diver.cylinder;
  const rateLpm = 4 * entry.diver.surfaceRateLpm;
  const isReserve = found.bar <= reserveBar + 1e-9;
  return {
    put: [
      fraction([worked(rateLpm, 0), '×', worked(found.litres / rateLpm, LEG_DIGITS)], [worked(waterL, 0)]),
    ],
    exact: found.litres / waterL,
    result: isReserve
      ? said`${figure('pressureNeeded', found.bar)}, the reserve`
      : said`${figure('pressureNeeded', found.bar)}`,
  };
}

/**
 * The workings of a class: for each mix a first dive of `CLASS_MIN` to the depth.
 * @param depthM metres @param percents whole percents of oxygen, rising
 * @returns PO2, MOD, EAD, richest mix, no-stop limit, CNS, OTU and minimum gas, in metres and bar
 * Source: core/workings, each figure by its name; the figures are those of the ledger of `classTrip`.
 */
export function classFormulas(depthM: number, percents: readonly number[]): ClassFormulas {
  const trip = classTrip(depthM, percents);
  const { column } = surroundingsOf(trip);
  const bar = ambientBar(depthM, column);
  const all = ledger(trip).divers.flatMap(({ entries }) =>
    entries.map((entry): Of => {
      assert(entry.o2 !== null, 'every dive of the class has its mix');
      return { entry, trip, o2: entry.o2, bar };
    }),
  );
  const [first] = all;
  assert(first !== undefined, 'a class looks at a mix');
  const rateLpm = CLASS_DIVER.surfaceRateLpm;
  return {
    pressure: {
      formula: ['P = P0 + w × depth'],
      put: [
        worked(column.surfaceBar, BAR_DIGITS + 1),
        '+',
        worked(column.barPerM, BAR_DIGITS + 1),
        '×',
        worked(depthM, 1),
        '=',
        said`${worked(bar, BAR_DIGITS)} bar`,
      ],
    },
    rows: [
      {
        title: said`PO2`,
        formula: ['oxygen × P'],
        where: said`rounded up`,
        mixes: all.map(po2),
      },
      {
        title: said`MOD`,
        formula: [fraction([fraction(['PO2 limit'], ['oxygen']), '− P0'], ['w'])],
        where: said`rounded down`,
        mixes: all.map(mod),
      },
      {
        title: said`EAD`,
        formula: [fraction([fraction(['P × nitrogen'], [worked(1 - AIR_O2, 2)]), '− P0'], ['w'])],
        where: said`rounded up`,
        mixes: all.map(ead),
      },
      {
        title: said`Richest mix`,
        formula: [fraction(['PO2 limit'], ['P'])],
        where: said`for the depth, rounded down`,
        mixes: [richest(first)],
      },
      {
        title: said`No-stop limit`,
        formula: ['arrival +', fraction(['half-time'], ['ln 2']), '× ln', fraction(['I − p'], ['I − L'])],
        where: said`of the compartment first at its limit L; I: inspired nitrogen, p: its tension on arrival, both in bar`,
        mixes: all.map(noStop),
      },
      {
        title: said`CNS of ${CLASS_MIN} min`,
        formula: [fraction(['minutes at depth'], ['limit for the PO2']), '+ ways'],
        where: said`ways: down, up and the safety stop, summed the same way`,
        mixes: all.map(cns),
      },
      {
        title: said`OTU of ${CLASS_MIN} min`,
        formula: [
          'minutes ×',
          raised(['(', fraction(['PO2 − 0.5'], [worked(0.5, 1)]), ')'], [fraction([5], [6])]),
          '+ ways',
        ],
        where: said`ways: as of the CNS`,
        mixes: all.map(otuOf),
      },
      {
        title: said`Minimum gas`,
        formula: [fraction(['4 × rate × sum of P × min'], ['litres of water'])],
        where: said`two divers at twice ${figure('rateTyped', rateLpm)}: a minute at the depth, the way up, the safety stop`,
        mixes: [minimum(first)],
      },
    ],
  };
}
