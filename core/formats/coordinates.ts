type Axis = 'lat' | 'lon';

const DECIMAL = /^([+-]?\d+(?:[.,]\d+)?)°?$/;
const MINUTES = /^(\d+)(?:°\s*|\s+)(\d+(?:[.,]\d+)?)['′]?$/;
const SECONDS = /^(\d+)(?:°\s*|\s+)(\d+)(?:['′]\s*|\s+)(\d+(?:[.,]\d+)?)(?:"|″|'')?$/;

const LETTERS: Readonly<Record<Axis, readonly [positive: string, negative: string]>> = {
  lat: ['N', 'S'],
  lon: ['E', 'W'],
};

/** Longer by far than a position to the last digit of a receiver; beyond it a text is something else. */
const LONGEST = 100;

function toNumber(digits: string): number {
  return Number(digits.replace(',', '.'));
}

/**
 * Degrees of a position as charts, receivers and spreadsheets write them: 12.3456, -12,3456, 12.3456 S,
 * 12° 20.7' S or 12° 20' 44" S.
 * @param text anything @param axis which letters belong to it
 * @returns degrees, south and west negative, not held to any range; null where the text is none of these, or
 *   has more than 100 characters
 * Source: ISO 6709 (order and signs), chart practice (degrees and minutes with a letter).
 */
export function coordinateDegrees(text: string, axis: Axis): number | null {
  if (text.length > LONGEST) return null;
  const trimmed = text.trim().replace('−', '-').toUpperCase();
  const [positive, negative] = LETTERS[axis];
  const letter = [positive, negative].find((each) => trimmed.startsWith(each) || trimmed.endsWith(each));
  const figures = (letter === undefined ? trimmed : trimmed.replace(letter, '')).trim();
  const degrees = unsignedOrDecimal(figures);
  if (degrees === null) return null;
  // A sign and a letter may contradict each other: then nobody knows the side.
  if (letter !== undefined && /^[+-]/.test(figures)) return null;
  return letter === negative ? -degrees : degrees;
}

function unsignedOrDecimal(figures: string): number | null {
  const decimal = DECIMAL.exec(figures);
  if (decimal) return toNumber(decimal[1]!);
  const [, degrees, minutes, seconds] = SECONDS.exec(figures) ?? MINUTES.exec(figures) ?? [];
  if (degrees === undefined || minutes === undefined) return null;
  const [min, sec] = [toNumber(minutes), toNumber(seconds ?? '0')];
  return min < 60 && sec < 60 ? Number(degrees) + min / 60 + sec / 3600 : null;
}

/** Every place at which a text can be cut in two: at a separator, or behind the letter of the latitude. */
function cuts(text: string): readonly (readonly [string, string])[] {
  const end = text.search(/[NS]/i) + 1;
  // A letter says where the latitude ends, whatever else might separate.
  if (end > 0 && end < text.length && /[EW]$/i.test(text))
    return [[text.slice(0, end), text.slice(end).replace(/^[;,\s]+/, '')]];
  return [...text.matchAll(/[;,\s]+/g)].map(
    ({ index, 0: mark }) => [text.slice(0, index), text.slice(index + mark.length)] as const,
  );
}

/**
 * Latitude and longitude written in one, in any of the ways of `coordinateDegrees`.
 * @param text anything
 * @returns degrees, south and west negative, on the globe where any reading is; "ambiguous" where it can be read
 *   as two different places; null where it is no position, or has more than 100 characters
 * Source: as `coordinateDegrees`.
 */
export function positionDegrees(
  text: string,
): { readonly lat: number; readonly lon: number } | 'ambiguous' | null {
  const trimmed = text.trim();
  // Every cut is tried: a text of cuts alone would be read as often as it has letters.
  if (trimmed.length > LONGEST) return null;
  const read = cuts(trimmed).flatMap(([latText, lonText]) => {
    const lat = coordinateDegrees(latText, 'lat');
    const lon = coordinateDegrees(lonText, 'lon');
    return lat === null || lon === null ? [] : [{ lat, lon }];
  });
  const onGlobe = read.filter(({ lat, lon }) => Math.abs(lat) <= 90 && Math.abs(lon) <= 180);
  const readings = onGlobe.length > 0 ? onGlobe : read;
  const [position] = readings;
  if (!position) return null;
  return readings.every(({ lat, lon }) => lat === position.lat && lon === position.lon)
    ? position
    : 'ambiguous';
}
