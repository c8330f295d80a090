import { numberTrouble } from '../document/fields';
import { LIST_RULES } from '../document/schema';
import { tooMany } from '../document/schema-parts';
import { excerpt } from '../document/texts';
import type { Level } from '../profile';
import { M_PER_FOOT } from '../units';
import { rounded } from '../words/quantity';
import { said, type SaidTrouble } from '../words/said';
import { decimalText } from './delimited';
import type { DepthUnit } from './site-row';

/** Depth and minutes with a stroke between: "30/15", "9.5 m/20 min". */
const LEVEL = /^(\d{1,3}(?:[.,]\d{1,17})?) ?(m|ft)? ?\/ ?(\d{1,3}(?:[.,]\d{1,17})?) ?(?:min)?$/i;

/** Longer than so many levels are written. */
const MOST_CHARACTERS = 400;

/**
 * Levels as divers write a typical dive: "30/15, 20/15, 10/15", depth over minutes, in the order of the dive.
 * @param text with commas, semicolons or plus signs between @param unit of depths that name none
 * @returns the levels, none for an empty text; or what cannot be read
 * Source: ranges as in the trip file.
 */
export function readLevels(text: string, unit: DepthUnit): readonly Level[] | SaidTrouble {
  const mend =
    unit === 'm'
      ? said`Write depth and minutes of each level: 30/15, 20/15, 10/15.`
      : said`Write depth and minutes of each level: 100/15, 60/15, 30/15.`;
  if (text.length > MOST_CHARACTERS) return { what: said`The levels are longer than a dive.`, mend };
  const parts = text
    .split(/[;+]/)
    .flatMap(byCommas)
    .map((part) => part.trim().replaceAll(/\s+/g, ' '))
    .filter((part) => part !== '');
  const levels: Level[] = [];
  for (const part of parts) {
    const match = LEVEL.exec(part);
    if (!match) return { what: said`"${excerpt(part)}" is no level.`, mend };
    const depth = Number(match[1]!.replace(',', '.'));
    const isFeet = match[2] === undefined ? unit === 'ft' : match[2].toLowerCase() === 'ft';
    const level = { depthM: isFeet ? depth * M_PER_FOOT : depth, min: Number(match[3]!.replace(',', '.')) };
    const trouble = numberTrouble('levelDepthM', level.depthM) ?? numberTrouble('levelMin', level.min);
    if (trouble) return trouble;
    levels.push(level);
  }
  return levels.length > LIST_RULES.legs.max ? tooMany(LIST_RULES.legs, levels.length) : levels;
}

/** Cut at the commas that stand between levels: one before which no stroke stands yet is a decimal comma. */
function byCommas(text: string): readonly string[] {
  const parts: string[] = [];
  let open = '';
  for (const piece of text.split(',')) {
    open = open === '' ? piece : `${open},${piece}`;
    if (!piece.includes('/')) continue;
    parts.push(open);
    open = '';
  }
  return open === '' ? parts : [...parts, open];
}

/** A level that lies deeper than its site; null where none does. */
export function levelBelow(levels: readonly Level[], depthM: number): SaidTrouble | null {
  // Typed in feet both may differ by rounding alone.
  if (levels.every((level) => level.depthM <= depthM + 1e-9)) return null;
  return {
    what: said`A level is deeper than the site.`,
    mend: said`Give the site the depth of its deepest level, or raise the level.`,
  };
}

/** Levels in metres, to the last digit, as `readLevels` reads them back. @returns "" where there are none */
export function levelsText(levels: readonly Level[] | undefined): string {
  return (levels ?? []).map(({ depthM, min }) => `${decimalText(depthM)}/${decimalText(min)}`).join(', ');
}

/** The same for a field: to the foot, or to the tenth of a metre. */
export function levelsShown(levels: readonly Level[] | undefined, unit: DepthUnit): string {
  return (levels ?? [])
    .map(({ depthM, min }) => {
      const depth = unit === 'ft' ? rounded(depthM / M_PER_FOOT, 0, 'near') : rounded(depthM, 1, 'near');
      return `${decimalText(depth)}/${decimalText(rounded(min, 1, 'near'))}`;
    })
    .join(', ');
}
