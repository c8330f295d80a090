/** Sentences of core as a person at the window reads them: their units, decimal sign and clock, names for ids. */
import type { Settings } from '../../core/host';
import type { Figure, Named, Piece, Quantity, Said, Usual, Words } from '../../core/words/said';
import type { Id, Trip } from '../../core/document/types';
import { fullL } from './cylinder';
import { clockText, dateText, mixText, shortText } from './format';
import { toUnit, unitOf, type Kind } from './units';

/** For whom a sentence is worded. */
export interface Reader extends Pick<Settings, 'units' | 'clock'> {
  /** The trip on screen, whose numbers and names stand for ids. */
  readonly trip?: Trip;
  /** An edit that may be refused: what it would bring has no number on screen. */
  readonly changed?: { readonly trip: Trip; readonly newDive: string };
  /** Of the cylinder that is spoken of: feet and psi call it by the gas it holds when full. */
  readonly fillBar?: number | undefined;
}

/** How a quantity is shown: SI times `inUnit`, with at most so many decimals as typed, as a bound, as a figure. */
interface Shown {
  readonly inUnit: number;
  readonly sign: string;
  readonly decimals: number;
  readonly boundDecimals: number;
  readonly nearDecimals: number;
}

const KINDS: Partial<Readonly<Record<Quantity, Kind>>> = {
  depth: 'depth',
  speed: 'depth',
  pressure: 'pressure',
  'gas-rate': 'rate',
};

/** Where feet and psi are read these are whole, as the fields show them. */
const WHOLE: ReadonlySet<Quantity> = new Set<Quantity>(['depth', 'speed', 'pressure']);

/** What is typed has no more decimals than this. */
const MOST_DECIMALS = 3;

const OTHER_SIGNS: Partial<Readonly<Record<Quantity, string>>> = {
  po2: ' bar',
  minutes: ' min',
  density: ' kg/m³',
  share: ' %',
};

function cylinderShown({ units, fillBar }: Reader): Shown {
  if (units === 'metric' || fillBar === undefined) {
    const sign = units === 'metric' ? ' L' : ' L of water';
    return { inUnit: 1, sign, decimals: MOST_DECIMALS, boundDecimals: 2, nearDecimals: 1 };
  }
  const inUnit = toUnit(fullL({ waterL: 1, fillBar }), 'volume', units);
  return {
    inUnit,
    sign: ` ${unitOf('volume', units).sign}`,
    decimals: 1,
    boundDecimals: 1,
    nearDecimals: 1,
  };
}

function shownAs(quantity: Quantity, reader: Reader): Shown {
  const { units } = reader;
  if (quantity === 'cylinder') return cylinderShown(reader);
  const kind = KINDS[quantity];
  const inUnit = kind ? toUnit(1, kind, units) : quantity === 'share' ? 100 : 1;
  const perMinute = quantity === 'speed' ? '/min' : '';
  const sign = kind ? ` ${unitOf(kind, units).sign}${perMinute}` : (OTHER_SIGNS[quantity] ?? '');
  const isWhole = units === 'imperial' && WHOLE.has(quantity);
  return {
    inUnit,
    sign,
    decimals: MOST_DECIMALS,
    boundDecimals: isWhole ? 0 : 2,
    nearDecimals: isWhole ? 0 : 1,
  };
}

function figureWords({ quantity, si, toward, isBare }: Figure, reader: Reader): string {
  const { inUnit, sign, decimals, boundDecimals, nearDecimals } = shownAs(quantity, reader);
  const places = toward === 'exact' ? decimals : toward === 'near' ? nearDecimals : boundDecimals;
  const text = shortText(si * inUnit, places, toward === 'exact' ? 'near' : toward);
  return isBare ? text : `${text}${sign}`;
}

function usualWords({ quantity, metric, imperial }: Usual, reader: Reader): string {
  const own = reader.units === 'metric' ? metric : imperial;
  const isShare = quantity === 'share';
  const texts = own.map((value) => shortText(isShare ? value * 100 : value, 2));
  // A cylinder of so many cubic feet is called so whatever it is filled to.
  const volume = ` ${unitOf('volume', reader.units).sign}`;
  return `${texts.join(' to ')}${quantity === 'cylinder' ? volume : shownAs(quantity, reader).sign}`;
}

/** Numbers and names are those on screen; what is not there yet is named as the edit would have it. */
function nameOf({ of, id }: Named, { trip, changed }: Pick<Reader, 'trip' | 'changed'>): string {
  const quoted = `“${id}”`;
  const byId = (each: { readonly id: Id }): boolean => each.id === id;
  switch (of) {
    case 'dive': {
      const at = trip?.dives.findIndex(byId) ?? -1;
      if (at >= 0) return `dive ${at + 1}`;
      return changed?.trip.dives.some(byId) ? changed.newDive : quoted;
    }
    case 'earlier dive':
      return 'the dive before the trip';
    case 'diver':
      return (trip?.party.find(byId) ?? changed?.trip.party.find(byId))?.name ?? quoted;
    case 'site':
      return (trip?.sites.find(byId) ?? changed?.trip.sites.find(byId))?.name ?? quoted;
    case 'mix': {
      const mix = trip?.mixes.find(byId) ?? changed?.trip.mixes.find(byId);
      return mix ? mixText(mix.o2) : quoted;
    }
  }
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function pieceWords(piece: Piece, reader: Reader): string {
  if (typeof piece === 'string') return piece;
  if ('si' in piece) return figureWords(piece, reader);
  if ('metric' in piece) return usualWords(piece, reader);
  if ('moment' in piece) return `${dateText(piece.moment)}, ${clockText(piece.moment, reader.clock)}`;
  if ('day' in piece) return dateText(piece.day, true);
  if ('timeOfDay' in piece) return clockText(`0000-00-00T${piece.timeOfDay}`, reader.clock);
  if ('id' in piece) return nameOf(piece, reader);
  return 'subject' in piece ? capital(nameOf(piece.subject, reader)) : sentence(piece.window, reader);
}

function sentence(said: Said, reader: Reader): string {
  return said.map((piece) => pieceWords(piece, reader)).join('');
}

/** The words of the window for a reader. */
export function wordsIn(reader: Reader): Words {
  return (said) => sentence(said, reader);
}
