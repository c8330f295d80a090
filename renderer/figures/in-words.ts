/** Troubles as a person at the window reads them: dives by their number, moments by day and clock. */
import type { Settings } from '../../core/host';
import type { Trouble } from '../../core/result';
import type { Trip } from '../../core/trip/types';
import { clockText, dateText } from './format';

const MOMENT = /\d{4}-\d{2}-\d{2}T\d{2}:\d{2}/g;
const QUOTED = /"([^"]*)"/g;
const DIVE_AT = /\(dive "([^"]*)"\)/;

/**
 * The same trouble in the window's words. In a file a dive is known by its id and its place in the list; here
 * by the number it has on the strip, which is that of the trip on screen.
 */
export function inWords<Kind extends string>(
  trouble: Trouble<Kind>,
  trip: Trip,
  clock: Settings['clock'],
): Trouble<Kind> {
  const numberOf = (id: string): number => trip.dives.findIndex((dive) => dive.id === id) + 1;
  const told = (text: string): string =>
    text
      .replace(QUOTED, (quoted, id: string) => (numberOf(id) > 0 ? `dive ${numberOf(id)}` : quoted))
      .replace(MOMENT, (moment) => `${dateText(moment)} ${clockText(moment, clock)}`);
  const at = numberOf(DIVE_AT.exec(trouble.where)?.[1] ?? '');
  // Beside a field of one dive "it" would be that dive, though another may be the one that clashes.
  const what = at > 0 ? trouble.what.replace(/^It /, `Dive ${at} `) : trouble.what;
  return { ...trouble, what: told(what), mend: told(trouble.mend) };
}
