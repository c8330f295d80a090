import { siteOf } from '../document/site-of';
import { isOnDive } from '../document/as-dived';
import type { Dive, Trip } from '../document/types';
import { fileWords } from '../words/reader';
import { mixSaid } from '../words/terms';
import { csvText, type Cell, type CsvStyle } from './delimited';
import { levelsText } from './levels-text';

/** A mix by its label; "auto" as it stands in the trip. */
function mixText({ mixes }: Trip, mix: string): string {
  const found = mixes.find(({ id }) => id === mix);
  return found ? fileWords(mixSaid(found.o2)) : mix;
}

function rowOf(trip: Trip, dive: Dive, number: number): readonly Cell[] {
  const site = siteOf(trip, dive);
  return [
    number,
    dive.startsAt.slice(0, 10),
    dive.startsAt.slice(11),
    site?.name ?? dive.siteId,
    dive.depthM,
    dive.bottomMin,
    levelsText(dive.legs),
    mixText(trip, dive.mix),
    dive.onBoard?.map((mix) => mixText(trip, mix)).join(', ') ?? '',
    trip.party
      .filter(({ id }) => isOnDive(dive, id))
      .map(({ name }) => name)
      .join(', '),
    dive.added === true ? 'yes' : 'no',
    dive.notes ?? '',
  ];
}

/**
 * The dives of a trip as planned, as separated values: a row a dive, in metres and minutes.
 * @param trip a document that `checkTrip` finds nothing wrong with @param style of the spreadsheets that will open it
 * @returns headings and rows, in the order of the trip; figures as they were given, none rounded
 * Source: RFC 4180 (2005).
 */
export function writeDiveRows(trip: Trip, style?: CsvStyle): string {
  const headings = [
    'dive',
    'date',
    'start',
    'site',
    'depth (m)',
    'bottom time (min)',
    'levels (m/min)',
    'mix',
    'on board',
    'divers',
    'added',
    'notes',
  ];
  return csvText([headings, ...trip.dives.map((dive, at) => rowOf(trip, dive, at + 1))], style);
}
