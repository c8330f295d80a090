/** What a class sees of its gases over all depths: oxygen pressure and no-stop time. */
import { setpointBar } from '../breathing';
import { po2Bar } from '../gas';
import type { Leg } from '../profile';
import { oxygenLegs } from '../tissues/breathed-legs';
import { ambientBar } from '../water';
import { CLASS_DIVER, type ClassGas } from './class-dive';
import { noStopFromRest } from './compare';
import { depthPoints, type DepthPoint } from './depth-curve';

/** What decides the oxygen pressure: a mix, the setpoint held, one that is not reached yet, or a diluent richer than it. */
export type Po2Law = 'mix' | 'held' | 'not-reached' | 'diluent';

/** Depths over which one of them does: straight between its ends. */
export interface Po2Stretch {
  readonly law: Po2Law;
  readonly fromM: number;
  readonly toM: number;
  readonly fromBar: number;
  readonly toBar: number;
}

export interface ClassCurve {
  readonly gas: ClassGas;
  /** From the surface to the MOD, of a loop its diluent's, or to the deepest that is asked; in order of depth. */
  readonly po2: readonly Po2Stretch[];
  /** Rising in depth; of a loop one just above the switch and one at it. */
  readonly points: readonly DepthPoint[];
}

/** So close above the switch depth the low setpoint is asked, metres. */
const JUST_ABOVE_M = 1e-6;

function po2Stretches({ loop, mix, modM, around }: ClassGas, toM: number): readonly Po2Stretch[] {
  const { column } = around;
  const down: Leg = {
    kind: 'descent',
    fromM: 0,
    toM: Math.min(modM, toM),
    fromBar: column.surfaceBar,
    toBar: ambientBar(Math.min(modM, toM), column),
    min: 1,
  };
  if (loop === null) {
    const { fromM, toM: deepestM, fromBar, toBar } = down;
    const [from, to] = [po2Bar(mix.o2, fromBar), po2Bar(mix.o2, toBar)];
    return [{ law: 'mix', fromM, toM: deepestM, fromBar: from, toBar: to }];
  }
  return oxygenLegs([down], { ...loop, toleranceBar: 0 }).map((leg): Po2Stretch => {
    const { fromM, toM: deepestM, fromBar, toBar } = leg;
    const isBelow = (fromBar + toBar) / 2 < setpointBar(loop, (fromM + deepestM) / 2);
    const law = fromBar === toBar ? 'held' : isBelow ? 'not-reached' : 'diluent';
    return { law, fromM, toM: deepestM, fromBar, toBar };
  });
}

/**
 * The gases of a class by depth.
 * @param gases from `classGases` @param fromM where no-stop times begin, above 0 @param toM deepest, metres
 * @param stepM between no-stop times
 * @returns in the order of the gases
 * Source: CONVENTIONS, "Constant PO2"; core/ascent/no-stop-limit.ts from rest.
 */
export function classCurves(
  gases: readonly ClassGas[],
  fromM: number,
  toM: number,
  stepM: number,
): readonly ClassCurve[] {
  return gases.map((gas): ClassCurve => {
    const { n2, around, loop, modM } = gas;
    const noStopMin = (depthM: number): number =>
      noStopFromRest(1 - n2, depthM, CLASS_DIVER, around).min ?? Infinity;
    const also = loop === null ? [] : [loop.switchM - JUST_ABOVE_M, loop.switchM];
    return {
      gas,
      po2: po2Stretches(gas, toM),
      points: depthPoints(noStopMin, modM, fromM, toM, stepM, also),
    };
  });
}
