import { cautionsOf } from '../../core/cautions/all';
import type { Severity } from '../../core/cautions/caution';
import type { Trip } from '../../core/document/types';
import { ledger } from '../../core/ledger/ledger';
import type { Result } from '../../core/result';
import { capital, pageReader, wordsOf } from '../../core/words/reader';
import { said } from '../../core/words/said';
import { headline } from './headline';
import { readTripFile } from './trip-input';
import type { Units } from './units-option';

/** What comes of a trip; small, as it is handed from one thread to another. */
export interface Checked {
  readonly title: string;
  /** Cautions by how grave they are; null where the trip cannot be used. */
  readonly cautions: Readonly<Record<Severity, number>> | null;
  /** How it stands, or why it cannot be used, as a sentence. */
  readonly says: string;
  /** Not a trip at all: of a folder it is passed over. */
  readonly isOther: boolean;
}

/** @param read what became of reading the trip @param path of it, which stands before what is said already */
export function checked(read: Result<Trip>, path: string, units: Units): Checked {
  if (!read.ok) {
    const [{ kind, where, what }, ...more] = read.troubles;
    const place = where === '' || where === path ? '' : `${where}: `;
    const rest = more.length === 0 ? '' : ` And ${more.length} more to mend.`;
    return { title: '', cautions: null, says: `${place}${what}${rest}`, isOther: kind === 'not-a-trip' };
  }
  const { value: trip } = read;
  const whole = ledger(trip);
  const found = cautionsOf(whole);
  const cautions = { stop: 0, change: 0, know: 0 };
  for (const { severity } of found) cautions[severity] += 1;
  const words = wordsOf(pageReader(units));
  const stands = trip.dives.length === 0 ? said`No dives.` : headline(whole, found);
  return { title: trip.title, cautions, says: capital(words(stands)), isOther: false };
}

/** As `checked`, of a file. */
export async function checkedFile(path: string, units: Units): Promise<Checked> {
  return checked(await readTripFile(path), path, units);
}
