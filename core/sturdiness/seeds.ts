import type { ScatterName } from './scatter';

/** The seed that each scatter draws by: two runs that share one of them share what it draws. */
export type Seeds = Readonly<Record<ScatterName, number>>;

/** The same seed for all. @param seed a whole number of 32 bits */
export function seedsOf(seed: number): Seeds {
  return { depthM: seed, bottomMin: seed, startMin: seed, rateShare: seed, o2: seed };
}

/** Tells a second lot of draws from the first of a seed. Source: 2^32 / golden ratio, as usual. */
const OTHER = 0x9e3779b9;

/** Draws that have nothing in common with those of `seedsOf`, but for one scatter. */
export function frozen(seed: number, name: ScatterName): Seeds {
  return { ...seedsOf(seed ^ OTHER), [name]: seed };
}
