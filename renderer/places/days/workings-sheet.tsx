import { useMemo, useState, type ReactNode } from 'react';
import type { Id } from '../../../core/trip/types';
import { workingsOf } from '../../../core/workings/all';
import { FIGURES, type FigureId } from '../../../core/workings/types';
import { closeOverlay } from '../../actions/view';
import { Choice } from '../../parts/choice';
import { Dialog } from '../../parts/dialog';
import { diveNumber, ledgerOfDiver } from '../../store/selectors';
import { useDesk } from '../../store/store';
import './workings-sheet.css';

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
  const diverLedger = useDesk((state) => ledgerOfDiver(state, diverId));
  const entry = diverLedger?.entries.find(({ dive }) => dive.id === diveId);
  const all = useMemo(
    () => (diverLedger && entry ? FIGURES.map((each) => workingsOf(each, entry, { trip, diverLedger })) : []),
    [trip, diverLedger, entry],
  );
  const shown = all.find((each) => each.figure === figure) ?? all[0];
  return (
    <Dialog title="How is this worked out?" onClose={closeOverlay}>
      {entry && shown ? (
        <div className="workings">
          <Choice
            label={`A figure of dive ${diveNumber(trip, diveId)} for ${entry.diver.name}`}
            value={shown.figure}
            options={all.map((each) => ({ value: each.figure, label: each.title }))}
            commit={setFigure}
          />
          <p className="formula">{shown.formula}</p>
          <table>
            <caption className="unseen">The numbers put in</caption>
            <tbody>
              {shown.steps.map(({ label, value }) => (
                <tr key={label}>
                  <th scope="row">{label}</th>
                  <td>{value}</td>
                </tr>
              ))}
              <tr className="result">
                <th scope="row">{shown.title}</th>
                <td>{shown.result}</td>
              </tr>
            </tbody>
          </table>
          <p className="soft">Source: {shown.source}</p>
          {units === 'imperial' ? (
            <p className="soft">Formulas are in metres and bar, as they were published.</p>
          ) : null}
        </div>
      ) : (
        <p className="soft">This dive is no longer part of the trip.</p>
      )}
    </Dialog>
  );
}
