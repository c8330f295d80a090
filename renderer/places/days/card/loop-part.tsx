import type { ReactNode } from 'react';
import { loopOn } from '../../../../core/document/loops';
import type { Dive, Diver } from '../../../../core/document/types';
import { bailOutSaid, setpointsSaid } from '../../../../core/ledger/loop-said';
import type { LoopFigures } from '../../../../core/ledger/ledger-types';
import { capital } from '../../../../core/words/reader';
import { figure, inRow, listed, said, type Piece, type Said } from '../../../../core/words/said';
import { mixSaid } from '../../../../core/words/terms';
import { tell } from '../../../actions/edit';
import { setOnLoop } from '../../../actions/loops';
import { Folded } from '../../../parts/folded';
import { MixChoice } from '../../../parts/mix-choice';
import { PlainNumberField, UnitField } from '../../../parts/number-field';
import { useWords } from '../../../parts/use-words';
import { partyOf, shownEntry } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import styles from './loop-part.module.css';

/** Loops of a dive: what comes of the shown diver's, and who takes theirs. */
export function LoopPart({ dive }: { readonly dive: Dive }): ReactNode {
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const entry = useDesk((state) => shownEntry(state, dive.id));
  const owners = partyOf(trip, dive).filter(({ loop }) => loop !== undefined);
  const taken = owners.filter((diver) => loopOn(dive, diver) !== null);
  if (owners.length === 0) return null;
  const summary =
    taken.length === 0 ? said`On a loop: nobody` : said`On a loop: ${listed(taken.map(({ name }) => name))}`;
  return (
    <>
      {entry?.loop ? (
        <dl className={styles.figures} aria-label={words(said`Loop of ${entry.diver.name}`)}>
          {linesOf(entry.loop).map(([head, line]) => (
            <div key={head}>
              <dt>{head}</dt>
              <dd>{capital(words(line))}</dd>
            </div>
          ))}
        </dl>
      ) : null}
      <Folded about={dive.id} summary={words(summary)}>
        {() => owners.map((diver) => <Taken key={diver.id} dive={dive} diver={diver} />)}
      </Folded>
    </>
  );
}

function left(bar: number | null): Piece {
  return bar === null ? said`does not last` : figure('pressureLeft', bar);
}

function linesOf(loop: LoopFigures): readonly (readonly [string, Said])[] {
  const { breathing, oxygen, diluentGas, scrubber } = loop;
  const lasts =
    scrubber.leftMin < 0
      ? said`${figure('minutesMet', -scrubber.leftMin)} more than it lasts`
      : said`${figure('minutesLeft', scrubber.leftMin)} left`;
  return [
    ['Loop', said`${setpointsSaid(loop)}; diluent ${mixSaid(breathing.diluentO2)}`],
    [
      'Left',
      said`${inRow([said`oxygen ${left(oxygen.leftBar)}`, said`diluent ${left(diluentGas.leftBar)}`])}`,
    ],
    ['Scrubber', lasts],
    ['Bail-out', bailOutSaid(loop)],
  ];
}

/** Whether a diver takes their loop, and what of it is otherwise on this dive. */
function Taken({ dive, diver }: { readonly dive: Dive; readonly diver: Diver }): ReactNode {
  const { id, name } = diver;
  const own = loopOn(dive, diver);
  return (
    <fieldset className={styles.taken}>
      <legend className="unseen">{name}</legend>
      <label>
        <input
          type="checkbox"
          checked={own !== null}
          onChange={() => void tell(setOnLoop(dive.id, id, own === null ? {} : null))}
        />
        {name} on the loop
      </label>
      {own === null ? null : (
        <>
          <label>
            <input
              type="checkbox"
              checked={own.isFresh}
              onChange={() => void tell(setOnLoop(dive.id, id, { freshScrubber: !own.isFresh }))}
            />
            fresh scrubber
          </label>
          <div className={styles.fields}>
            <PlainNumberField
              label="Low setpoint, bar"
              value={own.setpoints.lowBar}
              step={0.1}
              sign="bar"
              commit={(lowBar) => setOnLoop(dive.id, id, { setpoints: { ...own.setpoints, lowBar } })}
            />
            <PlainNumberField
              label="High setpoint, bar"
              value={own.setpoints.highBar}
              step={0.1}
              sign="bar"
              commit={(highBar) => setOnLoop(dive.id, id, { setpoints: { ...own.setpoints, highBar } })}
            />
            <UnitField
              label="High from this depth on"
              kind="depth"
              value={own.setpoints.switchM}
              commit={(switchM) => setOnLoop(dive.id, id, { setpoints: { ...own.setpoints, switchM } })}
            />
            <MixChoice
              label="Diluent"
              value={own.diluent}
              commit={(diluent) => setOnLoop(dive.id, id, { diluent })}
            />
          </div>
        </>
      )}
    </fieldset>
  );
}
