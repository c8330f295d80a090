/** Positions as charts write them, and back. */
import { coordinateDegrees } from '../../core/formats/coordinates';
import { worded } from '../../core/said';
import { numberTrouble } from '../../core/trip/fields';
import type { Site } from '../../core/trip/types';
import { numberText } from './format';
import type { Parsed } from './parse';
import { wordsIn } from './words';

type Position = NonNullable<Site['position']>;

function half(degrees: number, positive: string, negative: string): string {
  const thousandths = Math.round(Math.abs(degrees) * 60_000);
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
  const halves = cuts(typed).flatMap(([latText, lonText]) => {
    const lat = coordinateDegrees(latText, 'lat');
    const lon = coordinateDegrees(lonText, 'lon');
    return lat === null || lon === null ? [] : [{ lat, lon }];
  });
  const [position] = halves;
  const isOne = halves.every(({ lat, lon }) => lat === position?.lat && lon === position.lon);
  if (!position || !isOne) {
    const short = typed.length > 40 ? `${typed.slice(0, 40)}…` : typed;
    const why = position ? 'can be read in two ways' : 'is no position';
    return { ok: false, what: `“${short}” ${why}.`, mend: REFUSED_MEND };
  }
  const trouble = numberTrouble('latitude', position.lat) ?? numberTrouble('longitude', position.lon);
  return trouble ? { ok: false, ...worded(trouble, DEGREE_WORDS) } : { ok: true, value: position };
}

/** Every place at which the text can be cut in two: at a separator, or behind the letter of the latitude. */
function cuts(text: string): readonly (readonly [string, string])[] {
  const separated = [...text.matchAll(/[;,\s]+/g)].map(
    ({ index, 0: mark }) => [text.slice(0, index), text.slice(index + mark.length)] as const,
  );
  const lettered = /^(.*?[NS])[;,\s]*(.*[EW])$/i.exec(text);
  // A letter says where the latitude ends, whatever else might separate.
  return lettered ? [[lettered[1]!, lettered[2]!]] : separated;
}
