import type { LoopBreathing } from '../breathing';
import type { Leg } from '../profile';
import { oxygenLegs, PURE_NITROGEN } from '../tissues/breathed-legs';
import type { Entry } from './ledger-types';

/** Legs and the oxygen fraction breathed on them, as the oxygen clocks take them. */
export interface OxygenBreathed {
  readonly legs: readonly Leg[];
  readonly o2: number;
}

/** The oxygen of legs on a loop. Source: CONVENTIONS, "Constant PO2". */
export function loopOxygen(legs: readonly Leg[], loop: LoopBreathing): OxygenBreathed {
  return { legs: oxygenLegs(legs, loop), o2: 1 };
}

/** The oxygen of legs as the diver of an entry breathes it. @param entry one that is made */
export function oxygenBreathed(
  legs: readonly Leg[],
  { loop, o2 }: Pick<Entry, 'loop' | 'o2'>,
): OxygenBreathed {
  return loop === null ? { legs, o2: o2! } : loopOxygen(legs, loop.breathing);
}

/** The nitrogen fraction that the maps of an entry's plan are applied with. @param entry one that is made */
export function nitrogenOf({ loop, o2 }: Pick<Entry, 'loop' | 'o2'>): number {
  return loop === null ? 1 - o2! : PURE_NITROGEN;
}
