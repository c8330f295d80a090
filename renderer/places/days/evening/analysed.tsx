import type { ReactNode } from 'react';
import { siteName } from '../../../../core/document/site-of';
import { makesDive } from '../../../../core/document/as-dived';
import { loggedValue, withLogged, type LoggedBy } from '../../../../core/document/log';
import type { DayDate, Dive, Trip } from '../../../../core/document/types';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { dayOf, figure, said, timeOfDay, type Said } from '../../../../core/words/said';
import { divesOfDay, putLog } from '../../../actions/log';
import { useWords } from '../../../parts/use-words';
import { selectEntriesByDive } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import styles from './evening.module.css';

/** An analysis of a cylinder that stands in the log of the day. */
interface Analysis {
  readonly dive: Dive;
  readonly by: LoggedBy;
  readonly o2: number;
}

function analysesOf(dives: readonly Dive[]): readonly Analysis[] {
  return dives.flatMap((dive) =>
    (dive.asDived ?? []).flatMap(({ by, o2 }) => (o2 === undefined ? [] : [{ dive, by: by ?? null, o2 }])),
  );
}

/** The next dive of whose cylinder this may be too: on the same mix as planned, without an analysis yet. */
function nextOf(trip: Trip, { dive, by }: Analysis): Dive | null {
  const at = trip.dives.findIndex(({ id }) => id === dive.id);
  const next = trip.dives.slice(at + 1).find((each) => by === null || makesDive(each, by));
  if (next === undefined || next.mix !== dive.mix) return null;
  return loggedValue(next, by, 'o2').value === undefined ? next : null;
}

/** What the analysis comes to at the depth of the dive. */
function sentenceOf(
  { by }: Analysis,
  entries: readonly Entry[],
): { readonly says: Said; readonly isPast: boolean } {
  const theirs = entries.filter(({ diver }) => by === null || diver.id === by);
  const worst = theirs.find(({ modM, depthM }) => modM !== null && modM < depthM - 1e-6);
  if (worst) {
    const verb = worst.isAsDived ? said`dived to` : said`planned to`;
    return {
      says: said`MOD ${figure('depthLimit', worst.modM)} at PO2 ${figure('po2Met', worst.diver.po2.working)}, ${verb} ${figure('depthMet', worst.depthM)}`,
      isPast: true,
    };
  }
  // Who is on a loop breathes nothing that was analysed for this.
  const one = theirs.find(({ loop }) => loop === null);
  if (one === undefined || one.modM === null) return { says: said`no mix can be used there`, isPast: true };
  return { says: said`MOD ${figure('depthLimit', one.modM)}`, isPast: false };
}

/** The analyses of the day, what each says of its MOD, and the next dive that the same cylinder serves. */
export function Analysed({ date }: { readonly date: DayDate }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const byDive = useDesk(selectEntriesByDive);
  const words = useWords();
  const analyses = analysesOf(divesOfDay(trip, date));
  return (
    <section className={styles.aside} aria-label="Oxygen as analysed">
      <h3>Oxygen as analysed</h3>
      {analyses.length === 0 ? (
        <p className="soft">An analysis in the table stands over the label of the mix.</p>
      ) : (
        <table>
          <tbody>
            {analyses.map((each) => {
              const { dive, by, o2 } = each;
              const { says, isPast } = sentenceOf(each, byDive.get(dive.id) ?? []);
              const next = nextOf(trip, each);
              const who = trip.party.find(({ id }) => id === by)?.name ?? 'Everybody';
              return (
                <tr key={`${dive.id} ${by}`}>
                  <th scope="row">{words(said`${figure('oxygen', o2)}`)}</th>
                  <td>
                    {who}, {siteName(trip, dive)}:{' '}
                    <span className={isPast ? 'care' : undefined}>{words(says)}</span>
                    {next === null ? null : (
                      <>
                        {' '}
                        <button
                          type="button"
                          className="linked"
                          onClick={() =>
                            void putLog(date, [
                              { diveId: next.id, change: (of, party) => withLogged(of, by, 'o2', o2, party) },
                            ])
                          }
                        >
                          {words(
                            said`Same cylinder ${dayOf(next.startsAt.slice(0, 10))} ${timeOfDay(next.startsAt.slice(11))}, ${siteName(trip, next)}`,
                          )}
                        </button>
                      </>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
    </section>
  );
}
