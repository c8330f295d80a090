import { readSites } from '../../core/formats/all';
import { LARGEST_FILE, readTrip } from '../../core/document/read-trip';
import { MAX_TEXT_LENGTH } from '../../core/formats/site-draft';
import { answerMs, LONGEST_ANSWER_MS, QUICK_MS, STEEPEST, type Hostile } from '../attack/hostile';
import { HOSTILE_DOCUMENTS } from '../attack/hostile-documents';
import { HOSTILE_SITES, HOSTILE_WAYPOINTS } from '../attack/site-texts';
import type { BenchLine } from './report';

interface Family {
  readonly what: string;
  readonly hostiles: readonly Hostile[];
  readonly answer: (text: string) => unknown;
  /** Characters. */
  readonly longest: number;
}

const FAMILIES: readonly Family[] = [
  { what: 'trip documents', hostiles: HOSTILE_DOCUMENTS, answer: readTrip, longest: LARGEST_FILE - 10_000 },
  { what: 'lists of sites', hostiles: HOSTILE_SITES, answer: readSites, longest: MAX_TEXT_LENGTH - 1000 },
  { what: 'waypoints', hostiles: HOSTILE_WAYPOINTS, answer: readSites, longest: MAX_TEXT_LENGTH - 1000 },
];

interface Timed {
  readonly what: string;
  /** At the whole length. */
  readonly ms: number;
  /** Of that at an eighth; as `ms` where the whole is over too soon for its growth to be told. */
  readonly eightEighthsMs: number;
}

function timed({ what, textOf }: Hostile, { answer, longest }: Family): Timed {
  const ms = answerMs(answer, textOf(longest));
  return { what, ms, eightEighthsMs: ms < QUICK_MS ? ms : 8 * answerMs(answer, textOf(longest / 8)) };
}

/** Time at the whole length over eight times that at an eighth, where time grows with the length to a power. */
function overEighths(exponent: number): number {
  return 8 ** (exponent - 1);
}

function linesOf(family: Family): readonly BenchLine[] {
  const { what, hostiles } = family;
  const all = hostiles.map((each) => timed(each, family));
  const growth = (each: Timed): number => each.ms / each.eightEighthsMs;
  const slowest = all.reduce((worst, each) => (each.ms > worst.ms ? each : worst));
  const steepest = all.reduce((worst, each) => (growth(each) > growth(worst) ? each : worst));
  return [
    {
      what: `the slowest of ${all.length} ${what} made to be slow: ${slowest.what}`,
      ms: slowest.ms,
      floor: 'one second',
      floorMs: LONGEST_ANSWER_MS,
      atMost: 1,
    },
    {
      what: `the one of them whose time grows fastest: ${steepest.what}`,
      ms: steepest.ms,
      floor: 'eight times an eighth of it',
      floorMs: steepest.eightEighthsMs,
      atMost: Math.round(100 * overEighths(STEEPEST)) / 100,
    },
  ];
}

/** Texts made to be slow, at the longest that is read: none takes a second, nor time faster than it grows. */
export async function benchGrowth(): Promise<readonly BenchLine[]> {
  return FAMILIES.flatMap(linesOf);
}
