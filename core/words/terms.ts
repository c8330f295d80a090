/**
 * The glossary of the product: what things are called, once for every face. To call something otherwise, change it
 * here. A term stands in the singular and without an article, as the head of a column has it; where a sentence needs
 * another form of it, that stands beside it here.
 */
import { printed } from './quantity';
import { bare, listed, NOTHING, said, usual, type Figure, type Piece, type Said } from './said';

/** In the place of a figure that does not exist; the caution beside it says why. */
export const NONE = '\u2013';

/** What compressibility is reckoned at, and what a cylinder cools to. Source: as core/compressibility.ts, 293.15 K. */
export const ROOM_TEMPERATURE = usual('temperature', [20], [68]);

/** How grave a caution is. Each is said in words beside its mark, never by colour alone. */
export const SEVERITIES = {
  stop: said`Past a limit`,
  change: said`Adjust`,
  know: said`Note`,
} as const;

/** What room is measured to. */
export const LIMITS = {
  'no-stop': said`no-stop limit`,
  mod: said`MOD`,
  po2: said`PO2 limit`,
  cns: said`CNS clock`,
  'cns-day': said`CNS of 24 h`,
  gas: said`minimum gas`,
  oxygen: said`oxygen reserve`,
  scrubber: said`scrubber’s time`,
  'bail-out': said`bail-out gas`,
  'diver-depth': said`own depth limit`,
  interval: said`dive before`,
} as const;

/** The same within a sentence: "4 min to minimum gas", "5 min over the MOD". */
export const THE_LIMITS = {
  'no-stop': said`the no-stop limit`,
  mod: said`the MOD`,
  po2: said`the PO2 limit`,
  cns: said`the CNS clock`,
  'cns-day': said`the CNS of 24 h`,
  gas: said`minimum gas`,
  oxygen: said`the oxygen reserve`,
  scrubber: said`the scrubber’s time`,
  'bail-out': said`the bail-out gas`,
  'diver-depth': said`the diver’s depth limit`,
  interval: said`the dive before`,
} as const;

/** Of a dive that is past one, and has no minutes that say by how much. */
export function pastSaid(limit: keyof typeof LIMITS): Said {
  return limit === 'diver-depth' ? said`past the diver’s depth limit` : said`past the ${LIMITS[limit]}`;
}

/** The same where a column or a figure before it leaves little place. */
export const SHORT_LIMITS = {
  'no-stop': said`no-stop`,
  mod: said`MOD`,
  po2: said`PO2`,
  cns: said`CNS`,
  'cns-day': said`CNS 24 h`,
  gas: said`gas`,
  oxygen: said`oxygen`,
  scrubber: said`scrubber`,
  'bail-out': said`bail-out`,
  'diver-depth': said`own depth limit`,
  interval: said`dive before`,
} as const;

/** Room that reads as none. */
export const NO_ROOM = said`no room left`;

/** Units by name, for a screen reader and a field's label. */
export const UNIT_NAMES = {
  depth: { metric: said`metres`, imperial: said`feet` },
  pressure: { metric: said`bar`, imperial: said`pounds per square inch` },
  volume: { metric: said`litres`, imperial: said`cubic feet` },
  'gas-rate': { metric: said`litres a minute`, imperial: said`cubic feet a minute` },
  'oxygen-rate': { metric: said`litres a minute`, imperial: said`litres a minute` },
  'loop-volume': { metric: said`litres`, imperial: said`litres` },
  speed: { metric: said`metres a minute`, imperial: said`feet a minute` },
  po2: { metric: said`bar`, imperial: said`bar` },
  'gas-density': { metric: said`grams a litre`, imperial: said`grams a litre` },
  'water-density': { metric: said`kilograms a cubic metre`, imperial: said`kilograms a cubic metre` },
  temperature: { metric: said`degrees Celsius`, imperial: said`degrees Fahrenheit` },
  minutes: { metric: said`minutes`, imperial: said`minutes` },
  share: { metric: said`percent`, imperial: said`percent` },
  money: { metric: NOTHING, imperial: NOTHING },
  plain: { metric: NOTHING, imperial: NOTHING },
} as const;

/** The heads of columns, as short as they are wide. */
export const HEADS = {
  start: said`start`,
  interval: said`interval`,
  site: said`site`,
  depth: said`depth`,
  time: said`time`,
  mix: said`mix`,
  po2: said`PO2`,
  noStop: said`no-stop`,
  room: said`room`,
  cns: said`CNS`,
  otu: said`OTU`,
  left: said`left`,
  mod: said`MOD`,
  fill: said`fill`,
  turn: said`turn`,
  minimum: said`min.`,
  setBy: said`set by`,
  cost: said`cost`,
} as const;

/** Of a no-stop time that never ends. */
export const UNLIMITED = said`unlimited`;

/** Where nothing ever meets a limit. */
export const NO_END = said`no end`;

/** Where a limit is passed, and no minutes say by how much. */
export const PAST = said`past`;

/** Air is air to the hundredth of a percent, the finest that a mix is named by. */
const AIR_PERCENT = 21;

/** A mix as the trade writes it, by the oxygen the figures rest on: "Air", "EAN32", "EAN32.49". Source: trade terms. */
export function mixSaid(o2: number): Said {
  return printed(o2, 'oxygen', 'metric') === AIR_PERCENT ? said`Air` : said`EAN${bare('oxygen', o2)}`;
}

/** A dive that takes the richest mix on board that is within its limits. */
export const BEST_MIX = said`Best mix`;

/** Money without its currency: two decimals only where there are any. */
export function moneyFigure(cost: number): Figure {
  const isWhole = Number.isInteger(printed(cost, 'money', 'metric'));
  return bare(isWhole ? 'wholeMoney' : 'money', cost);
}

/** A sign such as "€" stands at its amount, letters such as "EUR" apart from it. */
const IS_SIGN = /[^\p{L}\p{N}]$/u;

/** An amount in the trip's money, "€1 240" or "EUR 9.50"; where the trip names none, the amount alone. */
export function moneySaid(cost: number, currency = ''): Said {
  const amount = moneyFigure(cost);
  if (currency === '') return said`${amount}`;
  return IS_SIGN.test(currency) ? said`${currency}${amount}` : said`${currency}\u00A0${amount}`;
}

const COUNTS = [
  said`no`,
  said`one`,
  said`two`,
  said`three`,
  said`four`,
  said`five`,
  said`six`,
  said`seven`,
  said`eight`,
  said`nine`,
  said`ten`,
  said`eleven`,
  said`twelve`,
] as const;

/** Small numbers in words, for sentences. */
export function countSaid(count: number): Piece {
  return COUNTS[count] ?? count;
}

const ORDINALS = [
  said`first`,
  said`second`,
  said`third`,
  said`fourth`,
  said`fifth`,
  said`sixth`,
  said`seventh`,
  said`eighth`,
] as const;

/** "third", "11th". */
export function ordinalSaid(n: number): Said {
  return ORDINALS[n - 1] ?? said`${n}th`;
}

/** "1 dive", "no dives", "4 dives". */
export function divesSaid(count: number): Said {
  if (count === 0) return said`no dives`;
  return count === 1 ? said`1 dive` : said`${count} dives`;
}

/** So many are named; more are counted. */
const NAMED = 3;

/** "Guide and Guest 1", "Guide, Guest 1, Guest 2 and nine more". */
export function someSaid(things: readonly Piece[]): Piece {
  const rest = things.length - NAMED;
  return listed(rest > 1 ? [...things.slice(0, NAMED), said`${countSaid(rest)} more`] : things);
}
