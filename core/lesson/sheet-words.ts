/** What an exercise sheet says besides its exercises. */
import type { System } from '../words/quantity';
import { pageReader, wordsOf, type Reader, type Words } from '../words/reader';
import { said, type Said } from '../words/said';
import { SAFETY_LINE } from '../words/safety-line';
import { LEVELS, type SheetRequest } from './sheet';
import type { ExerciseKind } from './exercise';

export const SHEET_TITLE = said`Pressure and mixes`;

/** "sheet 7, level 3 of 3, metric". */
export function sheetSaid({ seed, level, units }: SheetRequest): Said {
  return said`sheet ${seed}, level ${level} of ${LEVELS.length}, ${units === 'metric' ? said`metric` : said`imperial`}`;
}

/** The rule that all is worked out by, as far as the kinds on the sheet need it. */
export function ruleSaid(system: System, kinds: ReadonlySet<ExerciseKind>): Said {
  const pressure =
    system === 'metric'
      ? said`By the rule of thumb: 1 bar at the surface, 1 bar more for every 10 m.`
      : said`By the rule of thumb: 1 atm at the surface, 1 atm more for every 33 ft.`;
  const air = said` Air is 21 % oxygen and 79 % nitrogen.`;
  const cns = kinds.has('cns')
    ? said` The CNS clock halves in every 90 min at the surface, by the trade’s convention.`
    : said``;
  const square =
    kinds.has('cns') || kinds.has('residual')
      ? said` The minutes of a dive are all spent at its depth; the way down and up is left out.`
      : said``;
  return said`${pressure}${air}${cns}${square}`;
}

/** Over the answers. */
export function roundingSaid(kinds: ReadonlySet<ExerciseKind>): Said {
  return kinds.has('ead')
    ? said`Each answer with its working. An EAD is rounded up to the whole; all else comes out round.`
    : said`Each answer with its working. All comes out round.`;
}

/** What the answers rest on. */
export function sourcesSaid(kinds: ReadonlySet<ExerciseKind>): Said {
  const cns = kinds.has('cns')
    ? said`; NOAA Diving Manual, oxygen partial pressure limits for normal exposure`
    : said``;
  const table = kinds.has('residual')
    ? said`; U.S. Navy Diving Manual Revision 7 (2016), tables 9-7 and 9-8, read from a transcription`
    : said``;
  return said`Sources: Dalton’s law${cns}${table}; the rule of thumb and the limits of PO2 are common practice. The same sheet, level, number of questions and units give the same questions.`;
}

/** At the foot of every page. */
export const EXERCISES_ONLY = said`Exercises, not a dive plan. ${SAFETY_LINE}`;

/** Words of whoever works a sheet. @param decimal its sign */
export function sheetWords(units: Reader['units'], decimal: string): Words {
  const reader = pageReader(units);
  return wordsOf({ ...reader, signs: { ...reader.signs, decimal } });
}
