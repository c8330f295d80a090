/** Numbers that look drawn by lot and are the same for the same seed on every machine. */
import { assert } from '../result';

const MODULUS = 2 ** 31 - 1;
const MULTIPLIER = 16_807;

/** A seed is a whole number from 1 to this. Source: S. K. Park, K. W. Miller (1988), as `nextLot`. */
export const LARGEST_SEED = MODULUS - 1;

/**
 * The number after one in the minimal standard generator.
 * @param lot whole, 1 to 2 147 483 646 @returns 16 807 lot mod (2^31 − 1), exact in doubles, as the product is below 2^46
 * Source: S. K. Park, K. W. Miller, "Random number generators: good ones are hard to find", Communications of the ACM
 * 1988;31(10):1192-1201.
 */
export function nextLot(lot: number): number {
  return (lot * MULTIPLIER) % MODULUS;
}

/** Draws from seeds that lie close together begin alike, so the first few are let go. Source: choice of this project. */
const LET_GO = 8;

/** Draws one thing of several. */
export type Draw = <T>(things: readonly T[]) => T;

/**
 * Lots from a seed.
 * @param seed whole, 1 to `LARGEST_SEED`
 * Source: `nextLot`.
 */
export function lotsFrom(seed: number): Draw {
  assert(Number.isInteger(seed) && seed >= 1 && seed <= LARGEST_SEED, 'a seed is checked before it is used');
  let lot = seed;
  for (let i = 0; i < LET_GO; i += 1) lot = nextLot(lot);
  return (things) => {
    assert(things.length > 0, 'one of nothing cannot be drawn');
    lot = nextLot(lot);
    return things[Math.floor((lot / MODULUS) * things.length)]!;
  };
}
