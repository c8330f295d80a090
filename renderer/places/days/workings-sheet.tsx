import { unitName } from '../../figures/format';
import { useMemo, useState, type ReactNode } from 'react';
import type { Id } from '../../../core/document/types';
import { figuresOf, workingsOf } from '../../../core/workings/all';
import type { FigureId } from '../../../core/workings/types';
import { closeOverlay } from '../../actions/view';
import { decimalSign } from '../../figures/decimal-sign';
import { unitText, type Careful } from '../../figures/format';
import { type Kind } from '../../../core/words/quantity';
import { wordsIn } from '../../figures/reader';
import { Choice } from '../../parts/choice';
import { Dialog } from '../../parts/dialog';
import { diveNumber, ledgerOfDiver } from '../../store/selectors';
import { useDesk } from '../../store/store';
import styles from './workings-sheet.module.css';

/** Outcomes that a reader in feet and psi wants in those as well, rounded to the careful side. */
const IN_UNITS: Partial<Readonly<Record<FigureId, readonly [Kind, Careful]>>> = {
  'room.m': ['depth', 'down'],
  modM: ['depth', 'down'],
  eadM: ['depth', 'up'],
  usedL: ['volume', 'up'],
  endBar: ['pressure', 'down'],
  minimumBar: ['pressure', 'up'],
  turnBar: ['pressure', 'up'],
};

/** A text of the workings with the decimal sign of the reader. */
function read(text: string): string {
  return text.replaceAll(/(?<=\d)\.(?=\d)/g, decimalSign());
}

/** How a figure comes about: the formula, the numbers put in, what comes out, who published it. */
export function WorkingsSheet(props: {
  readonly figure: FigureId;
  readonly diveId: Id;
  readonly diverId: Id;
}): ReactNode {
  const { diveId, diverId } = props;
  const [figure, setFigure] = useState(props.figure);
  const trip = useDesk((state) => state.trip);
  const units = useDesk(({ settings }) => settings.units);
  const clock = useDesk(({ settings }) => settings.clock);
  const diverLedger = useDesk((state) => ledgerOfDiver(state, diverId));
  const entry = diverLedger?.entries.find(({ dive }) => dive.id === diveId);
  const all = useMemo(() => {
    if (!diverLedger || !entry) return [];
    const context = { trip, diverLedger, words: wordsIn({ units, clock, trip }) };
    return figuresOf(entry).map((each) => workingsOf(each, entry, context));
  }, [trip, diverLedger, entry, units, clock]);
  const shown = all.find((each) => each.figure === figure) ?? all[0];
  const [kind, careful] = (shown && IN_UNITS[shown.figure]) ?? [];
  const inUnits =
    units === 'imperial' && kind && careful && shown && shown.exact !== null ? (
      <tr className={styles.result}>
        <th scope="row">In {unitName(kind, units)}</th>
        <td>{unitText(shown.exact, kind, units, careful)}</td>
      </tr>
    ) : null;
  return (
    <Dialog title="How is this worked out?" onClose={closeOverlay}>
      {entry && shown ? (
        <div className={styles.workings}>
          <Choice
            label={`A figure of dive ${diveNumber(trip, diveId)} for ${entry.diver.name}`}
            value={shown.figure}
            options={all.map((each) => ({ value: each.figure, label: each.title }))}
            commit={setFigure}
          />
          <p className={styles.formula}>{read(shown.formula)}</p>
          <table>
            <caption className="unseen">The numbers put in</caption>
            <tbody>
              {shown.steps.map(({ label, value }) => (
                <tr key={label}>
                  <th scope="row">{read(label)}</th>
                  <td>{read(value)}</td>
                </tr>
              ))}
              <tr className={styles.result}>
                <th scope="row">{shown.title}</th>
                <td>{read(shown.result)}</td>
              </tr>
              {inUnits}
            </tbody>
          </table>
          <p className={styles.note}>Source: {shown.source}</p>
          {units === 'imperial' ? (
            <p className={styles.note}>Formulas are in metres and bar, as they were published.</p>
          ) : null}
        </div>
      ) : (
        <p className="soft">This dive is no longer part of the trip.</p>
      )}
    </Dialog>
  );
}
