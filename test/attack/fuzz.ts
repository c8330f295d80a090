/** Random inputs against a clock: none may throw, none may be slow, and time may not grow faster than length. */
import fc from 'fast-check';
import { spentMs } from '../support/processor-time';
import type { Outcome } from './attack';
import { Growth } from './growth';

export interface Fuzz<T> {
  readonly inputs: fc.Arbitrary<T>;
  readonly sizeOf: (input: T) => number;
  /** Answers one input and says what became of it; throws where the answer is none to give. */
  readonly answer: (input: T) => 'read' | 'refused';
  /** Longest that an input of a length may take, ms of processor time, once the code is warm. */
  readonly longestMs: (size: number) => number;
  /** Steepest exponent of time over length that passes for linear. */
  readonly steepest: number;
  readonly warmUp?: readonly T[];
  /** Another clock than the processor's, for a test of this fuzzer. */
  readonly clock?: (run: () => void) => number;
}

/** A fuzzer that is refused, or let in, each time tests nothing behind the door. */
const LEAST_SHARE = 0.1;

/** Seed and path stand first in a report; an input may be of any length, and they give it again. */
function shortened(report: string): string {
  return report.length > 2000 ? `${report.slice(0, 2000)}...` : report;
}

export function fuzz<T>(of: Fuzz<T>, times: number): Outcome {
  const { inputs, sizeOf, answer, longestMs, steepest, clock = spentMs } = of;
  const seen = { read: 0, refused: 0, worstMs: 0, worstSize: 0, largest: 0 };
  const growth = new Growth<T>();
  for (let warm = 0; warm < 20; warm += 1) for (const each of of.warmUp ?? []) answer(each);
  const check = fc.check(
    fc.property(inputs, (input) => {
      const size = sizeOf(input);
      let outcome: 'read' | 'refused' = 'refused';
      const once = (): number =>
        clock(() => {
          outcome = answer(input);
        });
      let ms = once();
      // A collection of garbage may fall into one, so it is tried again.
      for (let again = 0; again < 3 && ms > longestMs(size); again += 1) ms = Math.min(ms, once());
      seen[outcome] += 1;
      seen.largest = Math.max(seen.largest, size);
      if (ms > seen.worstMs) Object.assign(seen, { worstMs: ms, worstSize: size });
      growth.note(input, size, ms);
      if (ms > longestMs(size)) throw new Error(`took ${ms.toFixed(0)} ms, ${size} characters long`);
    }),
    { numRuns: times, interruptAfterTimeLimit: 3_600_000, markInterruptAsFailure: true },
  );
  const fell: string[] = [];
  if (check.failed)
    fell.push(`${String(check.errorInstance)}\n${shortened(fc.defaultReportMessage(check) ?? '')}`);
  const exponent = check.failed ? null : growth.exponent((input) => clock(() => void answer(input)));
  if (exponent !== null && exponent > steepest)
    fell.push(`time grows with the length to the power of ${exponent.toFixed(2)}, at most ${steepest}`);
  const tried = seen.read + seen.refused;
  for (const kind of ['read', 'refused'] as const) {
    if (seen[kind] < LEAST_SHARE * tried) fell.push(`only ${seen[kind]} of ${tried} were ${kind}`);
  }
  // A clock that stands still would find everything quick.
  if (seen.worstMs < 0.1) fell.push(`the slowest took ${seen.worstMs} ms: the clock stands still`);
  return {
    tried,
    told: [
      `${seen.read} read, ${seen.refused} refused, up to ${seen.largest} characters`,
      `slowest ${seen.worstMs.toFixed(1)} ms (${seen.worstSize} characters)`,
      exponent === null
        ? 'too few lengths to tell how time grows'
        : `time grows with the length to the power of ${exponent.toFixed(2)}`,
    ],
    fell,
  };
}
