/** What is breathed where it is not one mix: a loop held at constant oxygen pressure, or mixes that change with depth. */

/** A breathing loop (rebreather). Oxygen pressures in bar, as a cell in the loop reads them: in moist gas. */
export interface LoopBreathing {
  readonly is: 'loop';
  /** Setpoint above the switch depth. */
  readonly lowBar: number;
  /** Setpoint at the switch depth and below it. */
  readonly highBar: number;
  readonly switchM: number;
  /** Oxygen fraction of the diluent: what is richer than the setpoint allows cannot be held down to it. */
  readonly diluentO2: number;
  /** How far the loop may stray from its setpoint: nitrogen is reckoned below it by so much, the clocks above it. */
  readonly toleranceBar: number;
}

/** Mixes of open circuit that are changed on the way. */
export interface MixesBreathing {
  readonly is: 'mixes';
  /** The richest first; each is breathed down to its depth, below the depth of the last the last is. */
  readonly mixes: readonly { readonly o2: number; readonly downToM: number }[];
}

export type Breathing = LoopBreathing | MixesBreathing;

/**
 * The setpoint of a loop at a depth.
 * @param depthM metres @returns bar
 * Source: CONVENTIONS, "Constant PO2".
 */
export function setpointBar({ lowBar, highBar, switchM }: LoopBreathing, depthM: number): number {
  return depthM >= switchM ? highBar : lowBar;
}

/**
 * The mix that is breathed at a depth.
 * @param depthM metres @returns its place in the list
 * Source: definition.
 */
export function mixAt({ mixes }: MixesBreathing, depthM: number): number {
  const found = mixes.findIndex(({ downToM }) => depthM <= downToM);
  return found < 0 ? mixes.length - 1 : found;
}
