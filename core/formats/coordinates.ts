type Axis = 'lat' | 'lon';

const DECIMAL = /^([+-]?\d+(?:[.,]\d+)?)°?$/;
const MINUTES = /^(\d+)(?:°\s*|\s+)(\d+(?:[.,]\d+)?)['′]?$/;
const SECONDS = /^(\d+)(?:°\s*|\s+)(\d+)(?:['′]\s*|\s+)(\d+(?:[.,]\d+)?)(?:"|″|'')?$/;

const LETTERS: Readonly<Record<Axis, readonly [positive: string, negative: string]>> = {
  lat: ['N', 'S'],
  lon: ['E', 'W'],
};

function toNumber(digits: string): number {
  return Number(digits.replace(',', '.'));
}

/**
 * Degrees of a position as charts, receivers and spreadsheets write them: 12.3456, -12,3456, 12.3456 S,
 * 12° 20.7' S or 12° 20' 44" S.
 * @param text anything @param axis which letters belong to it
 * @returns degrees, south and west negative, not held to any range; null where the text is none of these
 * Source: ISO 6709 (order and signs), chart practice (degrees and minutes with a letter).
 */
export function coordinateDegrees(text: string, axis: Axis): number | null {
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
