/**
 * Texts made to be slow, each at several lengths up to the longest that is read: every one is answered within a
 * second, and none takes time faster than it grows.
 */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { spentMs } from '../support/processor-time';
import type { Attack, Outcome } from './attack';
import { slopeOf } from './growth';

/** A text of about some length, made to be slow in one way. */
export interface Hostile {
  readonly what: string;
  readonly textOf: (length: number) => string;
  /** Cannot be as long as asked: what it is made of has a bound of its own. */
  readonly isBounded?: boolean;
}

/** Longest that an answer may take, ms of processor time. */
export const LONGEST_ANSWER_MS = 1000;

/** Steepest exponent of time over length: a linear answer still waits for memory as it grows. */
export const STEEPEST = 1.6;

/** Answers below this are told apart by nothing but the clock; the square of a text this long takes seconds. */
export const QUICK_MS = 60;

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

/** The best of three runs, ms. What the one before left behind is not the work of the next. */
export function answerMs(answer: (text: string) => unknown, text: string): number {
  const runs = [1, 2, 3].map(() => {
    collectGarbage();
    return spentMs(() => answer(text));
  });
  return Math.min(...runs);
}

export interface Measured {
  /** At the whole length. */
  readonly ms: number;
  /** Over its halves down to an eighth. */
  readonly exponent: number;
}

function look(answer: (text: string) => unknown, { textOf }: Hostile, longest: number): Measured {
  // What lies about of the texts before only adds to it: clearing that away takes longer than most answers.
  const text = textOf(longest);
  const onceMs = spentMs(() => answer(text));
  if (onceMs < QUICK_MS) return { ms: onceMs, exponent: 0 };
  const points = [8, 4, 2, 1].map((part) => {
    const shorter = textOf(longest / part);
    return { size: shorter.length, ms: answerMs(answer, shorter) };
  });
  const { ms } = points[points.length - 1]!;
  return { ms, exponent: ms < QUICK_MS ? 0 : slopeOf(points) };
}

/** The best of three looks, as one of four times alone may fall into something else that the machine does. */
export function measured(answer: (text: string) => unknown, of: Hostile, longest: number): Measured {
  let best = look(answer, of, longest);
  for (let again = 0; again < 2 && (best.exponent > STEEPEST || best.ms > LONGEST_ANSWER_MS); again += 1) {
    const next = look(answer, of, longest);
    best = { ms: Math.min(best.ms, next.ms), exponent: Math.min(best.exponent, next.exponent) };
  }
  return best;
}

/**
 * An attack with every one of some texts.
 * @param longest characters that are read at most
 */
export function hostileAttack(
  title: string,
  hostiles: readonly Hostile[],
  answer: (text: string) => unknown,
  longest: number,
): Attack {
  const run = (eighths: number): Outcome => {
    const fell: string[] = [];
    let slowest = { what: '', ms: 0 };
    for (const hostile of hostiles) {
      const { what, textOf, isBounded = false } = hostile;
      const length = (longest * eighths) / 8;
      const made = textOf(length).length;
      if (made > length + 100_000 || (made < length / 2 && !isBounded))
        fell.push(`${what}: ${made} characters were made where ${length} were asked`);
      const { ms, exponent } = measured(answer, hostile, length);
      if (ms > slowest.ms) slowest = { what, ms };
      if (ms > LONGEST_ANSWER_MS) fell.push(`${what}: ${ms.toFixed(0)} ms`);
      if (exponent > STEEPEST)
        fell.push(`${what}: time grows with the length to the power of ${exponent.toFixed(2)}`);
    }
    return {
      tried: hostiles.length,
      told: [`slowest ${slowest.ms.toFixed(0)} ms: ${slowest.what}`],
      fell,
    };
  };
  // In eighths of the longest text: `npm test` has no time for more than one.
  return { title, whole: 8, quick: 1, run };
}
