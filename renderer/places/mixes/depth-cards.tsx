import { useMemo, type ReactNode } from 'react';
import { depthCard, type DepthCard, type DepthCardRow } from '../../../core/mixes/depth-card';
import { cardNotesSaid, isDense, isTooDense } from '../../../core/mixes/depth-card-words';
import { mixO2 } from '../../../core/ledger/mix-choice';
import { bare, figure, said, type Said } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { CommandButton } from '../../parts/command-button';
import { useReader, useWords } from '../../parts/use-words';
import { useDesk } from '../../store/store';
import { WordChoice } from './in-sentence';
import { MixSample, mixLines, type MixLine } from './mix-line';
import { chooseView, useMixesView } from './mixes-view';
import { WideTable } from './wide-table';
import styles from './depth-cards.module.css';

/** What stands in each column, with its unit in its head; rounded the careful way. */
const COLUMNS: readonly { readonly head: Said; readonly of: (row: DepthCardRow) => Said }[] = [
  { head: said`PO2, bar`, of: ({ po2Bar }) => said`${bare('po2Met', po2Bar)}` },
  { head: said`Density, g/L`, of: ({ densityGL }) => said`${bare('densityMet', densityGL)}` },
  { head: said`EAD`, of: ({ eadM }) => said`${figure('depthCounted', eadM)}` },
  {
    head: said`No-stop, first dive`,
    of: ({ noStopMin }) => (noStopMin === null ? said`no limit` : said`${figure('minutesLeft', noStopMin)}`),
  },
  {
    head: said`CNS 100 % after`,
    of: ({ cnsMin }) => (cnsMin === null ? said`–` : said`${figure('minutesLeft', cnsMin)}`),
  },
];
const DENSITY = 1;
/** Below the MOD oxygen pressure and density alone are told. */
const TOLD_PAST_MOD = 2;

function Row({ row }: { readonly row: DepthCardRow }): ReactNode {
  const words = useWords();
  const told = row.isPastMod ? TOLD_PAST_MOD : COLUMNS.length;
  return (
    <tr data-past={row.isPastMod || undefined}>
      <th scope="row">{words(said`${figure('depthSet', row.depthM)}`)}</th>
      {COLUMNS.slice(0, told).map(({ of }, at) => (
        <td key={at}>
          {at === DENSITY && isDense(row) ? (
            <b className={isTooDense(row) ? styles.tooDense : ''}>{words(of(row))}</b>
          ) : (
            words(of(row))
          )}
        </td>
      ))}
      {row.isPastMod ? <td colSpan={COLUMNS.length - told}>only to get out of trouble</td> : null}
    </tr>
  );
}

function Card(props: {
  readonly card: DepthCard;
  readonly line: MixLine;
  readonly isOne: boolean;
}): ReactNode {
  const { card, line, isOne } = props;
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const name = words(mixSaid(mixO2(card.mix)));
  const firstPast = card.rows.findIndex(({ isPastMod }) => isPastMod);
  const limit = (
    <tr key="mod" className={styles.mod}>
      <td colSpan={COLUMNS.length + 1}>
        {words(said`MOD ${figure('depthLimit', card.modM)}, PO2 ${figure('po2Limit', card.workingBar)}`)}
      </td>
    </tr>
  );
  return (
    <section className={styles.card} aria-label={`Depth card of ${name}`}>
      <h3>
        <MixSample line={line} />
        {name} <span className="soft">{words(said`MOD ${figure('depthLimit', card.modM)}`)}</span>
      </h3>
      <WideTable label={`${name} by depth`}>
        <table>
          <thead>
            <tr>
              <th scope="col">Depth</th>
              {COLUMNS.map(({ head }, at) => (
                <th key={at} scope="col">
                  {words(head)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {card.rows.flatMap((row, at) => [
              ...(at === firstPast ? [limit] : []),
              <Row key={row.depthM} row={row} />,
            ])}
            {firstPast < 0 && card.ownDepthM === null ? limit : null}
            {card.ownDepthM === null ? null : (
              <tr className={styles.mod}>
                <td colSpan={COLUMNS.length + 1}>
                  {words(said`own depth limit ${figure('depthSet', card.ownDepthM)}`)}
                </td>
              </tr>
            )}
          </tbody>
        </table>
      </WideTable>
      <p className={styles.note}>
        {words(cardNotesSaid(card, trip, isOne, { depth: (depth) => depth, name: (text) => text }))}
      </p>
    </section>
  );
}

/** What each mix on board is by depth, for the most careful of the party or for one diver. */
export function DepthCards(): ReactNode {
  const trip = useDesk((state) => state.trip);
  const { units } = useReader();
  const diverId = useMixesView((view) => view.diverId);
  const diver = trip.party.find(({ id }) => id === diverId);
  const cards = useMemo(() => {
    const divers = diver === undefined ? trip.party : [diver];
    return trip.mixes
      .toSorted((a, b) => mixO2(a) - mixO2(b))
      .map((mix) => depthCard(trip, mix, divers, units === 'imperial' ? 'imperial' : 'metric'));
  }, [trip, diver, units]);
  const lines = useMemo(() => mixLines(cards.map(({ mix }) => mix)), [cards]);
  if (cards.length === 0) {
    return <p className="soft">No mix on board yet: add one, and its card appears here.</p>;
  }
  return (
    <section aria-label="Depth cards">
      <div className={styles.ask}>
        <span>
          Each mix on board by depth, for{' '}
          <WordChoice
            label="Whose figures"
            value={diver?.id ?? ''}
            options={[
              { value: '', label: 'the most careful of the party' },
              ...trip.party.map(({ id, name }) => ({ value: id, label: name })),
            ]}
            commit={(value) => chooseView({ diverId: value === '' ? null : value })}
          />
        </span>
        <span className="soft">printed for the water under Slates, as depth cards</span>
        <CommandButton id="trip.print" className="linked">
          Print
        </CommandButton>
      </div>
      <div className={styles.cards}>
        {cards.map((card, at) => (
          <Card
            key={card.mix.id}
            card={card}
            line={lines[at]!}
            isOne={diver !== undefined || trip.party.length === 1}
          />
        ))}
      </div>
    </section>
  );
}
