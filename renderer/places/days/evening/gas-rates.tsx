import { useMemo, type ReactNode } from 'react';
import { breathedUntil, DIVES_FOR_RATE, type Breathed } from '../../../../core/ledger/breathed';
import type { DayDate, Diver } from '../../../../core/document/types';
import { wallDate, wallMin } from '../../../../core/words/calendar';
import { rounded } from '../../../../core/words/quantity';
import { figure, said, type Said } from '../../../../core/words/said';
import { planWithRate } from '../../../actions/log';
import { tell } from '../../../actions/edit';
import { useWords } from '../../../parts/use-words';
import { selectLedger } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import styles from './evening.module.css';

/** The day after, "2027-03-07". */
export function dayAfter(date: DayDate): DayDate {
  return wallDate(wallMin(`${date}T00:00`) + 1440);
}

function rate(lpm: number) {
  return figure('rateTyped', lpm);
}

/** What a diver breathed, against what is planned for tomorrow. */
export function breathedSaid({ dives, medianLpm, leastLpm, mostLpm, plannedLpm }: Breathed): Said | null {
  if (medianLpm === null || leastLpm === null || mostLpm === null) return null;
  if (dives.length === 1) return said`${rate(medianLpm)} on one dive; planned with ${rate(plannedLpm)}`;
  return said`${rate(medianLpm)}, median of ${dives.length} dives, ${rate(leastLpm)} to ${rate(mostLpm)}; planned with ${rate(plannedLpm)}`;
}

/** What is offered from tomorrow on: the median to the next whole litre up; null where it is planned so, or little is known. */
export function offeredLpm({ dives, medianLpm, plannedLpm }: Breathed): number | null {
  if (medianLpm === null || dives.length < DIVES_FOR_RATE) return null;
  const offered = rounded(medianLpm, 0, 'up');
  return offered === plannedLpm ? null : offered;
}

/** What each diver breathed so far, and the offer to plan with it from tomorrow on: never taken in silence. */
export function GasRates({ date }: { readonly date: DayDate }): ReactNode {
  const ledger = useDesk(selectLedger);
  const words = useWords();
  const tomorrow = dayAfter(date);
  const all = useMemo(() => breathedUntil(ledger, date, tomorrow), [ledger, date, tomorrow]);
  const { party } = ledger.trip;
  const known = all.filter(({ medianLpm }) => medianLpm !== null);
  return (
    <section className={styles.aside} aria-label="Gas rates breathed">
      <h3>Gas rate at the surface</h3>
      {known.length === 0 ? (
        <p className="soft">Pressures left tell what each diver breathes.</p>
      ) : (
        <table>
          <tbody>
            {known.map((each) => (
              <Rate
                key={each.diverId}
                breathed={each}
                diver={party.find(({ id }) => id === each.diverId)!}
                from={tomorrow}
                words={words}
              />
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

function Rate(props: {
  readonly breathed: Breathed;
  readonly diver: Diver;
  readonly from: DayDate;
  readonly words: (sentence: Said) => string;
}): ReactNode {
  const { breathed, diver, from, words } = props;
  const offered = offeredLpm(breathed);
  const isTaken = diver.rates?.some((each) => each.from === from) ?? false;
  const sentence = breathedSaid(breathed);
  return (
    <tr>
      <th scope="row">{diver.name}</th>
      <td>
        {sentence ? words(sentence) : null}
        {offered === null ? null : (
          <>
            {' '}
            <button
              type="button"
              className="linked"
              aria-label={words(said`Plan ${diver.name} with ${rate(offered)} from tomorrow`)}
              onClick={() => void tell(planWithRate(diver.id, from, offered))}
            >
              {words(said`Plan with ${rate(offered)} from tomorrow`)}
            </button>
          </>
        )}
        {isTaken ? (
          <>
            {' '}
            <button
              type="button"
              className="linked"
              aria-label={`Back to the rate before, for ${diver.name}`}
              onClick={() => void tell(planWithRate(diver.id, from, null))}
            >
              Back to the rate before
            </button>
          </>
        ) : null}
      </td>
    </tr>
  );
}
