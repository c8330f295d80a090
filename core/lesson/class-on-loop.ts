/** The figures of a loop in class, where they are not those of a mix. */
import { setpointBar } from '../breathing';
import type { LoopFigures } from '../ledger/ledger-types';
import { loopAirDepthM } from '../mixes/class-dive';
import { surroundingsOf } from '../profile';
import { nitrogenInspiredBar, PURE_NITROGEN } from '../tissues/breathed-legs';
import { AIR_N2, inspiredBar, WATER_VAPOUR_BAR } from '../tissues/compartments';
import { fraction, type Formula } from '../words/formula';
import { bare, figure, said, worked, type Said } from '../words/said';
import { BAR_DIGITS, modOf, type Of, type PutIn } from './class-parts';

/** Of a setpoint: as many as it is typed with. */
const SET_DIGITS = 2;

export interface OfLoop extends Of {
  readonly loop: LoopFigures;
}

const VAPOUR = worked(WATER_VAPOUR_BAR, BAR_DIGITS);

/** The formulas that a loop has otherwise. */
export const ON_LOOP = {
  po2: ['setpoint, at most P −', VAPOUR],
  ead: [fraction([fraction(['P −', VAPOUR, '− PO2'], [worked(AIR_N2, 2)]), '− (P0 −', VAPOUR, ')'], ['w'])],
} as const satisfies Record<string, Formula>;

/** The place of a figure that has no meaning on a loop. */
export function without(why: Said): PutIn {
  return { put: null, exact: null, result: why };
}

/** Of what has so little nitrogen that no depth of air has as little. */
export const NO_EAD = without(said`none: less nitrogen than air has at the surface`);

/**
 * What the loop holds, and why where that is not its setpoint.
 * Source: CONVENTIONS, "Constant PO2".
 */
export function po2OnLoop({ entry, bar, loop: { breathing } }: OfLoop): PutIn {
  const exact = entry.po2Bar;
  const setBar = setpointBar(breathing, entry.depthM);
  const set = bare('po2Limit', setBar);
  const dry: Formula = [worked(bar, BAR_DIGITS), '−', VAPOUR];
  const met = figure('po2Met', exact);
  if (inspiredBar(bar) < setBar) {
    return { put: dry, exact, result: said`${met}, as ${set} is not reached there` };
  }
  if (breathing.diluentO2 * inspiredBar(bar) > setBar) {
    const put: Formula = [worked(breathing.diluentO2, 2), '× (', ...dry, ')'];
    return { put, exact, result: said`${met}, as the diluent is richer than ${set} there` };
  }
  return { put: [worked(setBar, SET_DIGITS)], exact, result: said`${met}` };
}

/** Where its diluent may be breathed. Source: as `modOf`. */
export function modOnLoop(of: OfLoop): PutIn {
  const { breathing, diluentModM: exact } = of.loop;
  return {
    put: modOf(breathing.diluentO2, of),
    exact,
    result: said`${figure('depthLimit', exact)}, of the diluent`,
  };
}

/** Depth at which air has as much nitrogen. Source: `loopAirDepthM`. */
export function eadOnLoop(of: OfLoop): PutIn {
  const { entry, trip, bar, loop } = of;
  const { column } = surroundingsOf(trip);
  const exact = loopAirDepthM(entry.depthM, loop.breathing, column);
  if (exact < 0) return NO_EAD;
  const nitrogenBar = nitrogenInspiredBar(entry.depthM, bar, PURE_NITROGEN, loop.breathing);
  const dryBar = inspiredBar(bar);
  return {
    put: [
      fraction(
        [
          fraction(
            [worked(dryBar, BAR_DIGITS), '−', worked(dryBar - nitrogenBar, BAR_DIGITS)],
            [worked(AIR_N2, 2)],
          ),
          '−',
          worked(inspiredBar(column.surfaceBar), BAR_DIGITS),
        ],
        [worked(column.barPerM, BAR_DIGITS + 1)],
      ),
    ],
    exact,
    result: said`${figure('depthMet', exact)}`,
  };
}
