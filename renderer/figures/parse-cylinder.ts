/** A cylinder as divers name it: "12", "2x12", "12 L at 232 bar", "80 cu ft at 3000 psi", "AL80". */
import { fromUnit, type System } from '../../core/words/quantity';
import { parseFigure, parseNumber, type Parsed } from './parse';

/** What was said of a cylinder: its water in litres and, where it was said, what a full one shows. */
export interface TypedCylinder {
  readonly waterL: number;
  readonly fillBar: number | null;
}

/** A cylinder that has a name of its own: rated cubic feet at the rated pressure in psi. */
interface Named {
  readonly cuFt: number;
  readonly psi: number;
}

/**
 * Cylinders by the names of the trade, in its own sizes: aluminium at 3000 psi, where an 80 holds 77.4 cubic feet, and
 * steel for 3442 (HP) or 2640 psi (LP, a tenth over its mark).
 * Source: common practice, from memory; makers differ by a cubic foot or two, so the reserve and the analysis of gas
 * rest on what the gauge shows.
 */
const NAMED: Readonly<Record<string, Named>> = {
  al40: { cuFt: 40, psi: 3000 },
  al63: { cuFt: 63, psi: 3000 },
  al80: { cuFt: 77.4, psi: 3000 },
  hp80: { cuFt: 80, psi: 3442 },
  hp100: { cuFt: 100, psi: 3442 },
  hp120: { cuFt: 120, psi: 3442 },
  lp85: { cuFt: 85, psi: 2640 },
  lp95: { cuFt: 95, psi: 2640 },
};

/** Cylinders to choose among, as they are typed. */
export const USUAL_CYLINDERS: Readonly<Record<System, readonly string[]>> = {
  metric: [
    '10 L at 200 bar',
    '12 L at 200 bar',
    '12 L at 232 bar',
    '15 L at 200 bar',
    '15 L at 232 bar',
    '2x7 L at 232 bar',
    '2x10 L at 232 bar',
    '2x12 L at 232 bar',
    'AL80',
  ],
  imperial: [
    '63 cu ft at 3000 psi',
    '80 cu ft at 3000 psi',
    '100 cu ft at 3442 psi',
    '120 cu ft at 3442 psi',
    '95 cu ft at 2640 psi',
    '2x80 cu ft at 3000 psi',
    '12 L at 200 bar',
  ],
};

const EXAMPLE: Readonly<Record<System, string>> = {
  metric: 'Type a size such as 12 or 2x12, and its fill if you like: 12 L at 232 bar.',
  imperial: 'Type a size such as 80, and its fill if you like: 80 cu ft at 3000 psi.',
};

/** Parts a size from a fill: "at", "@" or a stroke. */
const BETWEEN = / at | ?[@/] ?/i;

const TWIN = /^(?:2\s*[x×*]\s*|(?:twin|double|doubles|d)\s*)(?=\d|al|alu|hp|lp)/i;

const CUBIC_FEET = /(?:cu\.?\s*ft\.?|cuft|cubic\s+feet|cf|ft³|ft3)$/i;

const LITRES = /(?:l|lt|ltr|litres?|liters?)$/i;

function refused(what: string, units: System): Parsed<TypedCylinder> {
  return { ok: false, what, mend: EXAMPLE[units] };
}

function nameOf(text: string): Named | null {
  const plain = text
    .toLowerCase()
    .replace(/[\s-]/g, '')
    .replace(/^(?:aluminium|aluminum|alu|s(?=\d))/, 'al');
  return Object.hasOwn(NAMED, plain) ? NAMED[plain]! : null;
}

/** Litres of gas at 1 bar over the pressure it is under: the water it takes. */
function waterOf(cuFt: number, bar: number): number {
  return fromUnit(cuFt, 'volume', 'imperial') / bar;
}

/**
 * Reads a cylinder. A size without a unit is litres of water where metres are counted and cubic feet of gas where feet
 * are; cubic feet are those at the fill that is said, else at the one there is.
 * @param text as typed @param units of the window @param fillBar what it is filled to as far as known
 */
export function parseCylinder(text: string, units: System, fillBar: number): Parsed<TypedCylinder> {
  const plain = text.trim().replaceAll(/\s+/g, ' ');
  if (plain === '') return refused('Nothing is typed.', units);
  const [sizeText = '', fillText, ...more] = plain.split(BETWEEN);
  if (more.length > 0) return refused(`“${plain}” has more than a size and a fill.`, units);
  const fill = fillText === undefined ? null : parseFigure(fillText, 'pressure', units);
  if (fill !== null && !fill.ok) return fill;
  const twin = TWIN.exec(sizeText);
  const single = twin ? sizeText.slice(twin[0].length) : sizeText;
  const count = twin ? 2 : 1;
  const named = nameOf(single);
  if (named) {
    const ratedBar = fromUnit(named.psi, 'pressure', 'imperial');
    return {
      ok: true,
      value: { waterL: count * waterOf(named.cuFt, ratedBar), fillBar: fill?.value ?? ratedBar },
    };
  }
  const isCubicFeet = CUBIC_FEET.test(single) || (units === 'imperial' && !LITRES.test(single));
  const number = parseNumber(single.replace(CUBIC_FEET, '').replace(LITRES, ''));
  if (!number.ok) return refused(`“${plain}” is no cylinder.`, units);
  const size = number.value * count;
  const waterL = isCubicFeet ? waterOf(size, fill?.value ?? fillBar) : size;
  return { ok: true, value: { waterL, fillBar: fill?.value ?? null } };
}
