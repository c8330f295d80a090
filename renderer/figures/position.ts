/** Positions as charts write them, and back. */
import { positionDegrees } from '../../core/formats/coordinates';
import { worded } from '../../core/words/reader';
import { numberTrouble } from '../../core/document/fields';
import type { Site } from '../../core/document/types';
import { numberText } from './format';
import type { Parsed } from './parse';
import { rounded } from '../../core/words/quantity';
import { wordsIn } from './reader';

type Position = NonNullable<Site['position']>;

function half(degrees: number, positive: string, negative: string): string {
  const thousandths = rounded(Math.abs(degrees) * 60_000, 0, 'near');
  const whole = Math.floor(thousandths / 60_000);
  const minutes = (thousandths - whole * 60_000) / 1000;
  return `${whole}° ${numberText(minutes, 3, 'near')}′ ${degrees < 0 ? negative : positive}`;
}

/** "7° 24.720′ S, 148° 19.080′ E": to a thousandth of a minute, about two metres. */
export function positionText(position: Position | null): string {
  if (position === null) return '';
  const separator = numberText(0.5, 1, 'near').includes(',') ? ' ; ' : ', ';
  return [half(position.lat, 'N', 'S'), half(position.lon, 'E', 'W')].join(separator);
}

/** Degrees are the same to every reader. */
const DEGREE_WORDS = wordsIn({ units: 'metric', clock: '24h' });

const REFUSED_MEND = 'Type latitude and longitude, such as 7° 24.72′ S, 148° 19.08′ E or -7.412, 148.318.';

/** Latitude and longitude in any of the ways charts and receivers write them; empty is no position. */
export function parsePosition(text: string): Parsed<Position | null> {
  const typed = text.trim();
  if (typed === '') return { ok: true, value: null };
  const position = positionDegrees(typed);
  if (position === null || position === 'ambiguous') {
    const short = typed.length > 40 ? `${typed.slice(0, 40)}…` : typed;
    const why = position === null ? 'is no position' : 'can be read in two ways';
    return { ok: false, what: `“${short}” ${why}.`, mend: REFUSED_MEND };
  }
  const trouble = numberTrouble('latitude', position.lat) ?? numberTrouble('longitude', position.lon);
  return trouble ? { ok: false, ...worded(trouble, DEGREE_WORDS) } : { ok: true, value: position };
}
