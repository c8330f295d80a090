/** The recorded profile of a dive, as a trip file has it. */
import { deepestOf, type Sample } from '../profile';
import { figure, said, typed, type Piece, type SaidTrouble } from '../words/said';
import { NUMBER_RULES } from './fields';
import type { Bag } from './place-in-trip';

/** So many samples are kept of a dive: eleven hours of one every five seconds. Source: this project's own. */
export const MOST_SAMPLES = 8000;

/** Metres and minutes are equal within this: what was recorded is shown in tenths and kept in full. */
const SAME = 0.05;

const FORM = said`Write each as [minutes, metres], from [0, 0] to the surface; or read the profile from its file again.`;

function isSample(value: unknown): value is Sample {
  return (
    Array.isArray(value) &&
    value.length === 2 &&
    value.every((each: unknown) => Number.isFinite(each as number))
  );
}

function at(index: number): Piece {
  return said`Sample ${String(index + 1)}`;
}

/** What is wrong with one sample after another. */
function sampleTrouble(value: unknown, index: number, before: Sample | undefined): SaidTrouble | null {
  if (!isSample(value)) return { what: said`${at(index)} is not two numbers.`, mend: FORM };
  const [min, depthM] = value;
  if (before === undefined ? min !== 0 : min <= before[0])
    return {
      what:
        before === undefined
          ? said`The first sample is not at 0 min.`
          : said`${at(index)} is not later than the one before it.`,
      mend: FORM,
    };
  const { max } = NUMBER_RULES.depthM;
  return depthM >= 0 && depthM <= max
    ? null
    : {
        what: said`${at(index)} lies at ${typed('depth', depthM)}; it can be 0 to ${typed('depth', max)}.`,
        mend: FORM,
      };
}

/**
 * Judges a recorded profile by itself.
 * @param value anything at all
 * @returns null where it may stand: two to 8,000 samples [minutes, metres], from 0 min, in order of time, to the surface
 * Source: CONVENTIONS, "Recorded profiles".
 */
export function samplesTrouble(value: unknown): SaidTrouble | null {
  if (!Array.isArray(value)) return { what: said`Samples are no list.`, mend: FORM };
  if (value.length < 2 || value.length > MOST_SAMPLES) {
    return {
      what: said`Samples: ${String(value.length)} are given; there can be 2 to ${String(MOST_SAMPLES)}.`,
      mend: FORM,
    };
  }
  for (const [index, sample] of value.entries()) {
    const trouble = sampleTrouble(sample, index, value[index - 1] as Sample | undefined);
    if (trouble) return trouble;
  }
  const samples = value as readonly Sample[];
  if (samples[samples.length - 1]![1] !== 0)
    return { what: said`The last sample is not at the surface.`, mend: FORM };
  const { min } = NUMBER_RULES.depthM;
  return deepestOf(samples) >= min
    ? null
    : { what: said`No sample is as deep as ${typed('depth', min)}.`, mend: FORM };
}

/** What of a record its profile does not bear out. */
type RecordTrouble = SaidTrouble & { readonly key: 'depthM' | 'bottomMin' };

/**
 * Depth and bottom time of a record that its profile does not bear out. Works on any JSON.
 * @param record of what was dived
 * @returns none where it has no profile, or one that does not stand by itself
 * Source: CONVENTIONS, "Recorded profiles".
 */
export function recordTroubles({ samples, depthM, bottomMin }: Bag): readonly RecordTrouble[] {
  if (samples === undefined || samplesTrouble(samples) !== null) return [];
  const recorded = samples as readonly Sample[];
  const found: RecordTrouble[] = [];
  const mend = said`Take the recorded profile off first, or leave what it says.`;
  const deepestM = deepestOf(recorded);
  if (typeof depthM === 'number' && Math.abs(depthM - deepestM) > SAME) {
    const what = said`Depth is ${typed('depth', depthM)}, but the recorded profile goes to ${typed('depth', deepestM)}.`;
    found.push({ key: 'depthM', what, mend });
  }
  const [endMin] = recorded[recorded.length - 1]!;
  if (typeof bottomMin === 'number' && bottomMin >= endMin) {
    const what = said`Bottom time is ${typed('minutes', bottomMin)}, but the recorded profile ends after ${figure('minutesTyped', endMin)}.`;
    found.push({ key: 'bottomMin', what, mend });
  }
  return found;
}
