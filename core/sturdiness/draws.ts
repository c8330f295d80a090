import { FURTHEST } from './scatter';

/**
 * Random numbers by counter: four of 32 bits from four, so that a draw depends on what is drawn and on nothing drawn
 * before. Workers, their order, and a few runs as the first of many give the same runs.
 * Source: "pcg4d" of M. Jarzynski, M. Olano, "Hash functions for GPU rendering", J Comput Graph Tech 2020;9(3):20-38.
 */
export class Counter {
  x = 0;
  y = 0;
  z = 0;

  /** @param seed @param run @param dive @param who whole numbers of 32 bits */
  at(seed: number, run: number, dive: number, who: number): void {
    let x = (Math.imul(seed, 1664525) + 1013904223) | 0;
    let y = (Math.imul(run, 1664525) + 1013904223) | 0;
    let z = (Math.imul(dive, 1664525) + 1013904223) | 0;
    let w = (Math.imul(who, 1664525) + 1013904223) | 0;
    for (let round = 0; round < 2; round += 1) {
      x = (x + Math.imul(y, w)) | 0;
      y = (y + Math.imul(z, x)) | 0;
      z = (z + Math.imul(x, y)) | 0;
      w = (w + Math.imul(y, z)) | 0;
      if (round === 1) break;
      x ^= x >>> 16;
      y ^= y >>> 16;
      z ^= z >>> 16;
      w ^= w >>> 16;
    }
    this.x = x;
    this.y = y;
    this.z = z;
  }
}

/** Values of 32 bits. */
const RANGE = 2 ** 32;

/**
 * The value below which a share of a standard normal distribution lies.
 * @param p 0 to 1, ends left out @returns standard deviations, good to seven digits
 * Source: M. J. Wichura, "Algorithm AS 241: the percentage points of the normal distribution", Appl Statist
 * 1988;37:477-484 (PPND7).
 */
export function normalAt(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    const above = ((59.10937472 * r + 159.29113202) * r + 50.434271938) * r + 3.3871327179;
    return (q * above) / (((67.1875636 * r + 78.757757664) * r + 17.895169469) * r + 1);
  }
  const far = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  let z: number;
  if (far <= 5) {
    const r = far - 1.6;
    const above = ((0.17023821103 * r + 1.3067284816) * r + 2.75681539) * r + 1.4234372777;
    z = above / ((0.12021132975 * r + 0.7370016425) * r + 1);
  } else {
    const r = far - 5;
    const above = ((0.017337203997 * r + 0.42868294337) * r + 3.081226386) * r + 6.657905115;
    z = above / ((0.012258202635 * r + 0.24197894225) * r + 1);
  }
  return q < 0 ? -z : z;
}

/**
 * Standard deviations of a draw.
 * @param bits 32 of them @returns from -4 to 4: what would lie further out lies there
 * Source: inversion of the distribution; the cut is this project's.
 */
export function normalOf(bits: number): number {
  const z = normalAt(((bits >>> 0) + 0.5) / RANGE);
  return z > FURTHEST ? FURTHEST : z < -FURTHEST ? -FURTHEST : z;
}
