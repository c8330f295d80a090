/** How often each fault is provoked: 100 times, or as CARRYOVER_FAULTS says (`CARRYOVER_FAULTS=1000`). */
export const ROUNDS = Number(process.env['CARRYOVER_FAULTS'] ?? 100);

/** Pseudo-random numbers from 0 to below 1, the same in every run of a seed (mulberry32, public domain). */
export function dice(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}
