import { Bench } from 'tinybench';

/** One line of the bench: what was measured, and what it is measured against in the same run. */
export interface BenchLine {
  readonly what: string;
  /** Milliseconds of the thing itself, or what `unit` says. */
  readonly ms: number;
  /** What the floor is, e.g. "the exp() calls it needs". */
  readonly floor: string;
  /** Milliseconds of the floor. */
  readonly floorMs: number;
  /** Where it is no time. */
  readonly unit?: 'MB';
  /** The ratio that is to hold; left out where the line is only to be known. */
  readonly atMost?: number;
  /** For floors that are to be far above: the thing is at least so many times faster. */
  readonly fasterBy?: number;
}

/**
 * Median time of a run, in milliseconds, after warming up.
 * @param run what is measured @param budgetMs how long it is repeated, the warm-up a half more
 */
export async function medianMs(run: () => unknown, budgetMs = 400): Promise<number> {
  const bench = new Bench({ time: budgetMs, warmupTime: budgetMs / 2, iterations: 5, warmupIterations: 1 });
  bench.add('run', () => {
    run();
  });
  const [task] = await bench.run();
  const result = task!.result;
  if (!('latency' in result) || result.latency === undefined) {
    throw new Error('error' in result ? String(result.error) : `the bench ended as ${result.state}`);
  }
  return result.latency.p50;
}

function figure(ms: number, unit?: 'MB'): string {
  if (unit !== undefined) return `${ms.toFixed(0)} ${unit}`;
  if (ms >= 100) return `${ms.toFixed(0)} ms`;
  if (ms >= 1) return `${ms.toFixed(2)} ms`;
  return `${(ms * 1000).toFixed(1)} µs`;
}

/** Prints a line; true where its ratio holds, or none is asked. */
export function printLine(line: BenchLine): boolean {
  const ratio = line.ms / line.floorMs;
  const isKept =
    (line.atMost === undefined || ratio <= line.atMost) &&
    (line.fasterBy === undefined || 1 / ratio >= line.fasterBy);
  const kept = line.atMost ?? line.fasterBy;
  const isFaster = line.fasterBy !== undefined || (line.atMost === undefined && ratio < 0.1);
  const told =
    (isFaster ? `${(1 / ratio).toFixed(0)} times faster` : `${ratio.toFixed(2)} x`) +
    (kept === undefined ? '' : `, at ${isFaster ? 'least' : 'most'} ${kept}`);
  console.log(
    `${isKept ? '  ' : '! '}${line.what}: ${figure(line.ms, line.unit)}; ${line.floor}: ${figure(line.floorMs, line.unit)} (${told})`,
  );
  return isKept;
}
