/** The figures of the class as they are worked out on a blackboard: formula, the numbers of each mix put in, result. */
import { limitingCompartment } from '../ascent/no-stop-limit';
import { AIR_O2 } from '../gas';
import { nitrogenOf, oxygenBreathed } from '../ledger/breathed-oxygen';
import { planOf } from '../ledger/dive-plan';
import { minimumGasOf, reckonedOf } from '../ledger/gas-outcome';
import { ledger } from '../ledger/ledger';
import { lastLevelStay } from '../ledger/level-limits';
import { surfaceLimits } from '../ledger/nitrogen-outcome';
import { CLASS_DIVER, CLASS_MIN, classTrip, type ClassLook } from '../mixes/class-dive';
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
import { eadOnLoop, modOnLoop, NO_EAD, ON_LOOP, po2OnLoop, without, type OfLoop } from './class-on-loop';
import { BAR_DIGITS, LEG_DIGITS, modOf, type Of, type OfMix, type PutIn } from './class-parts';

export interface ClassFormula {
  readonly title: Said;
  readonly formula: Formula;
  /** How it is otherwise on a loop; null where there is no loop, or it is the same. */
  readonly onLoop: Formula | null;
  /** What the letters stand for. */
  readonly where: Said;
  /** One a mix in their order; one alone where it is the same for all. */
  readonly mixes: readonly PutIn[];
  /** Beside them; null where the class looks at no loop. */
  readonly loop: PutIn | null;
}

export interface ClassFormulas {
  /** Over all: the depth and the pressure there. */
  readonly pressure: { readonly formula: Formula; readonly put: Formula };
  readonly rows: readonly ClassFormula[];
}

function po2({ entry, o2, bar }: OfMix): PutIn {
  const exact = entry.po2Bar;
  return {
    put: [worked(o2, 2), '×', worked(bar, BAR_DIGITS)],
    exact,
    result: said`${figure('po2Met', exact)}`,
  };
}

function mod(of: OfMix): PutIn {
  const exact = of.entry.modM;
  return { put: modOf(of.o2, of), exact, result: said`${figure('depthLimit', exact)}` };
}

function ead({ entry, trip, o2, bar }: OfMix): PutIn {
  const { column } = surroundingsOf(trip);
  const exact = entry.eadM;
  if (exact !== null && exact < 0) return NO_EAD;
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

function richest({ entry, trip, bar }: OfMix): PutIn {
  const { o2, limit } = richestMix(entry.depthM, entry.diver, trip, surroundingsOf(trip));
  const { working } = entry.diver.po2;
  const ceiling = limit === 'ceiling' ? said`, no more than the ceiling` : NOTHING;
  return {
    put: [fraction([worked(working, 1)], [worked(bar, BAR_DIGITS)])],
    exact: working / bar,
    result: said`${figure('oxygenLimit', o2)}${ceiling}`,
  };
}

function noStop({ entry, trip }: Of): PutIn {
  const plan = planOf(trip, entry);
  const limits = surfaceLimits(plan.around.column, entry.diver.gradient.high);
  const stay = lastLevelStay(plan, entry.tensionsBefore, nitrogenOf(entry), limits);
  const found = limitingCompartment(stay);
  if (found === null) return { put: ['I < L'], exact: null, result: said`no limit` };
  const { halfTimeMin } = COMPARTMENTS[found.compartment - 1]!;
  const inspired = worked(stay.inspiredN2Bar, BAR_DIGITS);
  const exact = entry.noStopMin;
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

/** The oxygen of the dive as its clocks take it, cut into the level and the ways. */
function clocked({ entry }: Of) {
  const { legs, o2 } = oxygenBreathed(entry.legs, entry);
  const level = legs.find(({ kind }) => kind === 'level');
  assert(level !== undefined, 'a dive of the class has its level');
  return { legs, o2, level, ways: legs.filter((leg) => leg !== level), levelBar: o2 * level.toBar };
}

function cns(of: Of): PutIn {
  const { level, ways, o2, levelBar } = clocked(of);
  const limit = limitMin(levelBar, 'single');
  const rest = cnsFraction(ways, o2, 'single');
  const exact = of.entry.cns.after;
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
  const { legs, level, ways, o2, levelBar } = clocked(of);
  const rest = otu(ways, o2);
  const exact = otu(legs, o2);
  const over = levelBar - 0.5;
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

function minimum({ entry, trip, o2 }: OfMix): PutIn {
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

/** The dives of the class, by what is breathed on them. */
function divesOf(look: ClassLook): { readonly mixes: readonly OfMix[]; readonly loop: OfLoop | null } {
  const trip = classTrip(look);
  const bar = ambientBar(look.depthM, surroundingsOf(trip).column);
  const entries = ledger(trip).divers.flatMap((diver) => diver.entries);
  return {
    mixes: entries.flatMap((entry) => (entry.o2 === null ? [] : [{ entry, trip, bar, o2: entry.o2 }])),
    loop:
      entries.flatMap((entry) => (entry.loop === null ? [] : [{ entry, trip, bar, loop: entry.loop }]))[0] ??
      null,
  };
}

/**
 * The workings of a class: for each mix, and the loop beside them, a first dive of `CLASS_MIN` to the depth.
 * @returns PO2, MOD, EAD, richest mix, no-stop limit, CNS, OTU and minimum gas, in metres and bar
 * Source: core/workings, each figure by its name; the figures are those of the ledger of `classTrip`.
 */
export function classFormulas(look: ClassLook): ClassFormulas {
  const { mixes, loop } = divesOf(look);
  const [first] = mixes;
  assert(first !== undefined, 'a class looks at a mix');
  const { column } = surroundingsOf(first.trip);
  const rateLpm = CLASS_DIVER.surfaceRateLpm;
  const onLoop = (formula: Formula): Formula | null => loop && formula;
  const tolerance = loop && figure('po2Limit', loop.loop.breathing.toleranceBar);
  return {
    pressure: {
      formula: ['P = P0 + w × depth'],
      put: [
        worked(column.surfaceBar, BAR_DIGITS + 1),
        '+',
        worked(column.barPerM, BAR_DIGITS + 1),
        '×',
        worked(look.depthM, 1),
        '=',
        said`${worked(first.bar, BAR_DIGITS)} bar`,
      ],
    },
    rows: [
      {
        title: said`PO2`,
        formula: ['oxygen × P'],
        onLoop: onLoop(ON_LOOP.po2),
        where: loop ? said`rounded up; of a loop as its cells read it, in moist gas` : said`rounded up`,
        mixes: mixes.map(po2),
        loop: loop && po2OnLoop(loop),
      },
      {
        title: said`MOD`,
        formula: [fraction([fraction(['PO2 limit'], ['oxygen']), '− P0'], ['w'])],
        onLoop: null,
        where: said`rounded down`,
        mixes: mixes.map(mod),
        loop: loop && modOnLoop(loop),
      },
      {
        title: said`EAD`,
        formula: [fraction([fraction(['P × nitrogen'], [worked(1 - AIR_O2, 2)]), '− P0'], ['w'])],
        onLoop: onLoop(ON_LOOP.ead),
        where: tolerance
          ? said`rounded up; of a loop by the nitrogen inspired, its PO2 ${tolerance} less`
          : said`rounded up`,
        mixes: mixes.map(ead),
        loop: loop && eadOnLoop(loop),
      },
      {
        title: said`Richest mix`,
        formula: [fraction(['PO2 limit'], ['P'])],
        onLoop: null,
        where: said`for the depth, rounded down`,
        mixes: [richest(first)],
        loop: loop && without(said`none: a loop mixes what it holds at every depth itself`),
      },
      {
        title: said`No-stop limit`,
        formula: ['arrival +', fraction(['half-time'], ['ln 2']), '× ln', fraction(['I − p'], ['I − L'])],
        onLoop: null,
        where: said`of the compartment first at its limit L; I: inspired nitrogen, p: its tension on arrival, both in bar`,
        mixes: mixes.map(noStop),
        loop: loop && noStop(loop),
      },
      {
        title: said`CNS of ${CLASS_MIN} min`,
        formula: [fraction(['minutes at depth'], ['limit for the PO2']), '+ ways'],
        onLoop: null,
        where: tolerance
          ? said`ways: down, up and the safety stop, summed the same way; of a loop PO2 is ${tolerance} more`
          : said`ways: down, up and the safety stop, summed the same way`,
        mixes: mixes.map(cns),
        loop: loop && cns(loop),
      },
      {
        title: said`OTU of ${CLASS_MIN} min`,
        formula: [
          'minutes ×',
          raised(['(', fraction(['PO2 − 0.5'], [worked(0.5, 1)]), ')'], [fraction([5], [6])]),
          '+ ways',
        ],
        onLoop: null,
        where: said`ways and PO2: as of the CNS`,
        mixes: mixes.map(otuOf),
        loop: loop && otuOf(loop),
      },
      {
        title: said`Minimum gas`,
        formula: [fraction(['4 × rate × sum of P × min'], ['litres of water'])],
        onLoop: null,
        where: said`two divers at twice ${figure('rateTyped', rateLpm)}: a minute at the depth, the way up, the safety stop`,
        mixes: [minimum(first)],
        loop: loop && without(said`none: the way up without the loop is on bail-out gas`),
      },
    ],
  };
}
