/** How each cylinder of a trip is filled, step by step, and how many bottles of oxygen that takes. */
import type { Mix } from '../document/types';
import { mixO2 } from '../ledger/mix-choice';
import type { Ledger } from '../ledger/ledger-types';
import { greatest } from '../numeric';
import { contentL, type GasLaw } from '../supply';
import type { Id } from '../document/types';
import {
  filledCylinders,
  fillPlan,
  partialPressureFill,
  type Filled,
  type FillPlan,
  type FillRequest,
  type PartialPressureFill,
} from './fills';
import { success, type Result } from '../result';
import { BAR_PER_PSI, L_PER_CUBIC_FOOT } from '../units';
import type { System } from '../words/quantity';
import { fileWords, type Words } from '../words/reader';
import { isLoopOxygen } from './loop-cylinders';
import { isAir } from './stocked-trip';

/** One kind of cylinder filled with one mix by partial pressure, by both gas laws; null: not this way. */
export interface BlendStep {
  readonly mix: Mix;
  readonly waterL: number;
  /** Gauge pressure it comes back with: as asked, or of a diluent what its dive leaves. */
  readonly startBar: number;
  readonly fillBar: number;
  /** How many such fills the trip takes. */
  readonly fills: number;
  readonly by: Readonly<Record<GasLaw, PartialPressureFill | null>>;
  /** It is topped up from what a dive on a loop leaves in it. */
  readonly isDiluent: boolean;
}

/**
 * What a blender reads off the gauge: for each mix and cylinder of a trip the pressure after the oxygen, by each law.
 * @param ledger whose made entries are filled for @param request what the cylinders come back with
 * @param diveIds only these dives; null: all
 * @returns leanest first, the most fills first; air, which takes no oxygen, and the oxygen of loops are left out
 * Source: as `partialPressureFill`.
 */
export function blendSteps(
  ledger: Ledger,
  request: Pick<FillRequest, 'startBar' | 'startO2'>,
  diveIds: ReadonlySet<Id> | null = null,
): readonly BlendStep[] {
  const steps = new Map<string, { readonly filled: Filled; fills: number }>();
  for (const { filled } of filledCylinders(ledger, request, diveIds)) {
    const { mix, use, waterL, startBar, fillBar } = filled;
    if (isAir(mix) || isLoopOxygen(mix)) continue;
    const key = `${mix.id} ${waterL} ${startBar} ${fillBar} ${use === 'diluent'}`;
    const step = steps.get(key);
    if (step) step.fills += 1;
    else steps.set(key, { filled, fills: 1 });
  }
  return [...steps.values()]
    .toSorted(
      ({ filled: a, fills: ofA }, { filled: b, fills: ofB }) =>
        mixO2(a.mix) - mixO2(b.mix) || ofB - ofA || a.waterL - b.waterL || a.startBar - b.startBar,
    )
    .map(({ filled, fills }) => {
      const { mix, waterL, startBar, fillBar } = filled;
      const by = (law: GasLaw): PartialPressureFill | null => {
        const made = partialPressureFill(filled, mixO2(mix), law);
        return made.ok ? made.value : null;
      };
      return {
        mix,
        waterL,
        startBar,
        fillBar,
        fills,
        by: { ideal: by('ideal'), real: by('real') },
        isDiluent: filled.use === 'diluent',
      };
    });
}

/** A bottle of oxygen as it is delivered. */
export interface OxygenBottle {
  readonly waterL: number;
  readonly fillBar: number;
}

/** A bottle by the gas it is called by, as suppliers do where pressures are psi. @param cubicFeet when full */
function bottleOf(cubicFeet: number, psi: number): OxygenBottle {
  const fillBar = psi * BAR_PER_PSI;
  return { waterL: (cubicFeet * L_PER_CUBIC_FOOT) / fillBar, fillBar };
}

/** The usual one: of 50 L at 200 bar, of 250 cu ft at 2200 psi. Source: common practice of gas suppliers, from memory. */
export const USUAL_BOTTLES: Readonly<Record<System, OxygenBottle>> = {
  metric: { waterL: 50, fillBar: 200 },
  imperial: bottleOf(250, 2200),
};

/**
 * A bottle that oxygen is metered from for the compressor's intake is left at this, bar.
 * Source: common practice: a regulator keeps its flow, and no air gets into the bottle.
 */
export const CONTINUOUS_LEFT_BAR = 10;

/** Bottles for a trip. */
export interface BottleCount {
  /** Null where a bottle gives nothing: the cylinders need a higher pressure than it has. */
  readonly bottles: number | null;
  /** What one gives until it is at `downToBar`, litres at 1 bar. */
  readonly eachL: number;
  readonly downToBar: number;
}

/**
 * Bottles of oxygen that the mixes of a trip take, loops' own cylinders left out, each emptied no further than all its fills can still be made from.
 * @param plan all fills @param steps from `blendSteps` of the same fills; looked at for partial pressure alone
 * @returns whole bottles, 0 where no oxygen is put in. By partial pressure without a booster a bottle is of use down to
 *   the highest pressure that oxygen is put in to; for continuous blending and banks, down to `CONTINUOUS_LEFT_BAR`
 * Source: content as in core/supply.ts, of oxygen by the request's law; common practice of filling stations.
 */
export function oxygenBottles(
  plan: FillPlan,
  steps: readonly BlendStep[],
  request: Pick<FillRequest, 'method' | 'law'>,
  bottle: OxygenBottle,
): BottleCount {
  const { method, law } = request;
  // Into the cylinders of loops it goes as it is, with a booster where they are fuller than the bottle.
  const oxygenL = plan.total.oxygenL - plan.loopOxygenL;
  const downToBar =
    method === 'partial-pressure'
      ? greatest([0, ...steps.map(({ isDiluent, by }) => (isDiluent ? 0 : (by[law]?.afterOxygenBar ?? 0)))])
      : CONTINUOUS_LEFT_BAR;
  const eachL = Math.max(
    0,
    contentL(bottle.waterL, bottle.fillBar, 1, law) - contentL(bottle.waterL, downToBar, 1, law),
  );
  const bottles = oxygenL <= 0 ? 0 : eachL > 0 ? Math.ceil(oxygenL / eachL - 1e-9) : null;
  return { bottles, eachL, downToBar };
}

/** Fills that were worked out, with what they were asked by. */
export interface FillsMade {
  readonly request: FillRequest;
  readonly bottle: OxygenBottle;
  readonly plan: FillPlan;
  /** Of filling by partial pressure alone. */
  readonly steps: readonly BlendStep[];
  readonly bottles: BottleCount;
}

/**
 * All that is told of the fills of a trip: by day, step by step, and the bottles of oxygen to bring.
 * @param diveIds only these dives; null: all @param words of whoever reads the trouble
 * @returns trouble as `fillPlan` has it
 * Source: as `fillPlan`, `blendSteps` and `oxygenBottles`.
 */
export function fillsMade(
  ledger: Ledger,
  request: FillRequest,
  bottle: OxygenBottle,
  diveIds: ReadonlySet<Id> | null = null,
  words: Words = fileWords,
): Result<FillsMade, 'start'> {
  const plan = fillPlan(ledger, request, diveIds, words);
  if (!plan.ok) return plan;
  const steps = request.method === 'partial-pressure' ? blendSteps(ledger, request, diveIds) : [];
  const bottles = oxygenBottles(plan.value, steps, request, bottle);
  return success({ request, bottle, plan: plan.value, steps, bottles });
}
