/** Dives as a computer or another log recorded them, before they have their place in a trip. */
import { numberTrouble } from '../../document/fields';
import { MOST_SAMPLES } from '../../document/samples';
import { deepestOf, leavesBottomMin, type Sample } from '../../profile';
import type { Trouble } from '../../result';
import type { WallTime } from '../../words/calendar';
import { worded, type Words } from '../../words/reader';

/** One dive of one diver, with its profile. */
export interface RecordedDive {
  /** Whose it is, as the file names them; empty where it does not. */
  readonly diver: string;
  /** Where it was, as the file names it; empty where it does not. */
  readonly site: string;
  /** The wall clock of the file, seconds let go. */
  readonly startsAt: WallTime;
  /** What the file says of its zone, "Z" or "+02:00"; empty where it says nothing. */
  readonly zone: string;
  /** In order of time, the first at 0 min, the last at the surface. */
  readonly samples: readonly Sample[];
  readonly depthM: number;
  readonly bottomMin: number;
  /** Oxygen fraction of the one mix it was made on; null where it is not said. */
  readonly o2: number | null;
  /** Gauge pressure left at its end; null where it was not read. */
  readonly endBar: number | null;
  /** Where it stands in the file: "dive 3, line 120". */
  readonly where: string;
  /** What was made of the file, as sentences. */
  readonly remarks: readonly string[];
}

export type RecordedTroubleKind = 'too-large' | 'not-readable' | 'no-dives' | 'dive';

/** What was understood, and every dive that was not: it is for the reader to take the rest or not. */
export interface RecordedReading {
  readonly dives: readonly RecordedDive[];
  readonly troubles: readonly Trouble<RecordedTroubleKind>[];
}

/** Longer than the logs of many years; beyond it a text is something else. */
export const MOST_CHARACTERS = 60_000_000;

/** So many dives are read of one file. */
export const MOST_DIVES = 2000;

/** Depths a sensor tells above the water: less than this is its error. Source: choice of this project. */
const SENSOR_M = 0.5;

/** A profile that stands. */
export interface SoundSamples {
  readonly samples: readonly Sample[];
  readonly remarks: readonly string[];
}

/** What is wrong with a profile, and where. */
export interface SampleTrouble {
  readonly what: string;
  readonly where: string;
  readonly mend: string;
}

/** A sample as it stands in a file. */
export interface RawSample {
  readonly min: number;
  readonly depthM: number;
  readonly line: number;
}

/** A figure of a file, with as many digits as a message needs. */
function short(value: number): string {
  return String(Math.round(value * 100) / 100);
}

const CUT = 'Save the dive again from the program it comes from, or mend the line in an editor.';

/** What is wrong with one sample after another, in words. */
function wrongSample({ min, depthM }: RawSample, before: RawSample | undefined): string | null {
  if (!Number.isFinite(min) || min < 0) return 'The time of a sample is not a number of 0 or more.';
  if (!Number.isFinite(depthM)) return 'The depth of a sample is not a number.';
  if (before !== undefined && min <= before.min)
    return `The sample at ${short(min)} min follows one at ${short(before.min)} min: time has to go on.`;
  if (depthM < -SENSOR_M) return `A depth of ${short(depthM)} m lies above the water.`;
  return null;
}

/**
 * Holds the samples of a dive to what a profile can be: times that go on, depths below the water, all of them numbers.
 * Depths that lie up to half a metre above the water are its surface; a profile that ends under water is brought up.
 * @param raw as they stand in the file @param ascentMPerMin at which an end is brought up @param words of the reader
 * @returns the profile, without those samples that lie on the straight line between their neighbours; or what is wrong
 * Source: UDDF 3.2, element waypoint: between samples all changes linearly, and a dive begins at 0 s.
 */
export function soundSamples(
  raw: readonly RawSample[],
  ascentMPerMin: number,
  words: Words,
): SoundSamples | SampleTrouble {
  const line = raw[0]?.line;
  const whole = line === undefined ? '' : `line ${line}`;
  if (raw.length < 2) {
    return {
      what: 'It has fewer than two samples.',
      where: whole,
      mend: 'A profile needs time and depth, from entry to exit.',
    };
  }
  for (const [at, sample] of raw.entries()) {
    const what = wrongSample(sample, raw[at - 1]);
    if (what !== null) return { what, where: `line ${sample.line}`, mend: CUT };
  }
  const remarks: string[] = [];
  const highest = raw.reduce((least, { depthM }) => Math.min(least, depthM), 0);
  if (highest < 0) remarks.push(`Depths up to ${short(-highest)} m above the water are taken as 0 m.`);
  const samples: Sample[] = raw.map(({ min, depthM }) => [min, Math.max(0, depthM)]);
  if (samples[0]![0] > 0) samples.unshift([0, 0]);
  const [endMin, endM] = samples[samples.length - 1]!;
  if (endM > 0) {
    samples.push([endMin + endM / ascentMPerMin, 0]);
    remarks.push(
      `The record ends at ${short(endM)} m; the way up from there is added at ${short(ascentMPerMin)} m/min.`,
    );
  }
  const depth = numberTrouble('depthM', deepestOf(samples));
  if (depth) return { ...worded(depth, words), where: whole };
  const time = numberTrouble('bottomMin', leavesBottomMin(samples));
  if (time) return { ...worded(time, words), where: whole };
  const kept = thinned(samples);
  if (kept.length > MOST_SAMPLES) {
    return {
      what: `The profile has ${kept.length} samples; ${MOST_SAMPLES} are kept of a dive.`,
      where: whole,
      mend: 'Save the dive again with fewer samples, as one every five seconds.',
    };
  }
  return { samples: kept, remarks };
}

/** Depths that differ by less from the straight line lie on it: rounding alone, metres. */
const ON_LINE_M = 1e-9;

/** A profile without the samples that say nothing: the course is the very same. */
function thinned(samples: readonly Sample[]): readonly Sample[] {
  const kept: Sample[] = [];
  for (const sample of samples) {
    const [middle, first] = [kept[kept.length - 1], kept[kept.length - 2]];
    if (middle && first) {
      const share = (middle[0] - first[0]) / (sample[0] - first[0]);
      const onLine = first[1] + share * (sample[1] - first[1]);
      if (Math.abs(middle[1] - onLine) < ON_LINE_M) kept.pop();
    }
    kept.push(sample);
  }
  return kept;
}

/** What a text that is too long is refused with; null where it may be read. */
export function recordTooLarge(text: string): RecordedReading | null {
  if (text.length <= MOST_CHARACTERS) return null;
  return nothingRead(
    'too-large',
    `The text has ${text.length} characters; a log of dives has fewer than ${MOST_CHARACTERS}.`,
    '',
    'Save the dives of this trip alone and choose that file.',
  );
}

/** A reading of nothing, with its one trouble. */
export function nothingRead(
  kind: RecordedTroubleKind,
  what: string,
  where: string,
  mend: string,
): RecordedReading {
  return { dives: [], troubles: [{ kind, what, where, mend }] };
}
