import type { Sample } from '../../core/profile';

export type { Sample };

/** The same course with a sample at least every so many seconds, its corners kept. */
export function secondsApart(samples: readonly Sample[], seconds: number): readonly Sample[] {
  const fine: Sample[] = [samples[0]!];
  for (const [at, [toMin, toM]] of samples.slice(1).entries()) {
    const [fromMin, fromM] = samples[at]!;
    const pieces = Math.max(1, Math.ceil(((toMin - fromMin) * 60) / seconds));
    for (let piece = 1; piece < pieces; piece += 1) {
      const share = piece / pieces;
      fine.push([fromMin + share * (toMin - fromMin), fromM + share * (toM - fromM)]);
    }
    fine.push([toMin, toM]);
  }
  return fine;
}
