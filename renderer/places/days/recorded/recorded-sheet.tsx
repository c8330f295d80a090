import { useEffect, useMemo, useState, type ReactNode } from 'react';
import { capital } from '../../../../core/words/reader';
import { diverNamed, matchRecorded, startedMin } from '../../../../core/formats/recorded/match-recorded';
import type { RecordedDive, RecordedReading } from '../../../../core/formats/recorded/recorded-dive';
import { siteName } from '../../../../core/document/site-of';
import { effectiveDive, isOnDive } from '../../../../core/document/as-dived';
import { isDivedOnLoop } from '../../../../core/document/loops';
import type { Dive, Diver, Id } from '../../../../core/document/types';
import { wallText } from '../../../../core/words/calendar';
import { mixSaid } from '../../../../core/words/terms';
import { takeRecorded, type RecordedAs, type Taken } from '../../../actions/recorded';
import { closeOverlay } from '../../../actions/view';
import { clockText, dateText, depthText, minutesText, unitName, valueText } from '../../../figures/format';
import type { Parsed } from '../../../figures/parse';
import { Choice } from '../../../parts/choice';
import { Dialog } from '../../../parts/dialog';
import { Field } from '../../../parts/field';
import { useWords } from '../../../parts/use-words';
import { machine } from '../../../store/machine';
import { say } from '../../../store/notice';
import { desk, useDesk } from '../../../store/store';
import { leaveRecorded, startReading, stopReading, useRecordedView, type ReadFile } from './recorded-view';
import styles from './recorded.module.css';

/** A file as it was read, and what the user made of it so far. */
interface Chosen extends ReadFile {
  readonly diverId: Id;
  readonly shiftMin: number;
  /** What the user put in the place of what was matched; null leaves a dive out. */
  readonly corrected: Readonly<Record<number, RecordedAs | null>>;
}

/** Dives that a computer recorded: each is matched to one of the trip, to be corrected before anything changes. */
export function RecordedSheet(): ReactNode {
  const { readingName, file, fault } = useRecordedView();
  const [changed, setChanged] = useState<Chosen | null>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const chosen = file === null ? null : changed?.reading === file.reading ? changed : newlyRead(file);
  useEffect(() => leaveRecorded, []);
  const trip = useDesk((state) => state.trip);
  const diver = trip.party.find(({ id }) => id === chosen?.diverId);
  const matches = useMemo(
    () =>
      chosen === null || diver === undefined
        ? []
        : matchRecorded(trip, diver, chosen.reading.dives, chosen.shiftMin).map((diveId, at) =>
            at in chosen.corrected ? chosen.corrected[at]! : diveId === null ? null : { diveId },
          ),
    [chosen, diver, trip],
  );
  const taken: readonly Taken[] =
    chosen?.reading.dives.flatMap((recorded, at) =>
      matches[at] === null || matches[at] === undefined ? [] : [{ as: matches[at], recorded }],
    ) ?? [];
  const diveIds = taken.flatMap(({ as }) => ('diveId' in as ? [as.diveId] : []));
  const isTwice = new Set(diveIds).size < diveIds.length;
  const choose = async (): Promise<void> => {
    const picked = await machine().openText();
    if (!picked.ok) say({ tone: 'refused', lines: [picked.trouble] });
    else if (picked.value) {
      setRefusal(null);
      await startReading(picked.value.name, picked.value.text);
    }
  };
  const take = (): void => {
    if (chosen === null) return;
    const result = takeRecorded(chosen.diverId, taken, chosen.shiftMin);
    if (result.ok) closeOverlay();
    else setRefusal(`${result.troubles[0].what} ${result.troubles[0].mend}`);
  };
  return (
    <Dialog
      title="Recorded profiles"
      width="wide"
      onClose={closeOverlay}
      foot={
        <>
          <p className="care foot-note" role="status">
            {isTwice
              ? 'Two of them stand for the same dive: choose another for one, or leave it out.'
              : (refusal ?? fault)}
          </p>
          <button
            type="button"
            className="button first"
            disabled={taken.length === 0 || isTwice}
            onClick={take}
          >
            {taken.length === 1
              ? 'Take the profile'
              : taken.length === 0
                ? 'Take the profiles'
                : `Take ${taken.length} profiles`}
          </button>
        </>
      }
    >
      <p className="soft">
        One diver’s dives from a dive computer or another log: UDDF, or a table with a row for each sample
        under the headings start, time (min), depth (m); dives on open circuit alone. Nothing changes before
        you take them.
      </p>
      <p className={styles.file}>
        <button type="button" className={chosen ? 'linked' : 'button first'} onClick={() => void choose()}>
          {chosen ? 'Choose another file' : 'Choose a file'}
        </button>
        {chosen ? <span className={styles.name}>{chosen.name}</span> : null}
        <span role="status">{readingName === null ? '' : `Reading ${readingName}…`}</span>
        {readingName === null ? null : (
          <button type="button" className="linked" onClick={stopReading}>
            Stop reading
          </button>
        )}
      </p>
      {chosen ? <Troubles reading={chosen.reading} /> : null}
      {chosen && diver && chosen.reading.dives.length > 0 ? (
        <Matching chosen={chosen} diver={diver} matches={matches} change={setChanged} />
      ) : null}
    </Dialog>
  );
}

function newlyRead(file: ReadFile): Chosen {
  const { party } = desk.getState().trip;
  const named = file.reading.dives.map((dive) => diverNamed(party, dive.diver)).find((id) => id !== null);
  return { ...file, diverId: named ?? party[0]!.id, shiftMin: 0, corrected: {} };
}

/** So many are told in full; the rest by number, so that a wrong file does not fill the sheet. */
const TOLD = 8;

function Troubles({ reading: { troubles } }: { readonly reading: RecordedReading }): ReactNode {
  return (
    <div role="status">
      {troubles.length === 0 ? null : (
        <ul className={styles.troubles}>
          {troubles.slice(0, TOLD).map(({ where, what, mend }) => (
            <li key={`${where}${what}`}>
              {where === '' ? '' : `${capital(where)}: `}
              {what} {mend}
            </li>
          ))}
          {troubles.length > TOLD ? <li>And {troubles.length - TOLD} more.</li> : null}
        </ul>
      )}
    </div>
  );
}

/** Whole minutes, a day at most. */
function parseShift(text: string): Parsed<number> {
  const plain = text
    .trim()
    .replace('\u2212', '-')
    .replace(/ ?min$/, '');
  const min = /^[+-]?\d{1,4}$/.test(plain) ? Number(plain) : Number.NaN;
  return Math.abs(min) <= 1440
    ? { ok: true, value: min }
    : {
        ok: false,
        what: 'That is no number of minutes.',
        mend: 'Give whole minutes, as 60 or -60; 1440 at most.',
      };
}

function Matching(props: {
  readonly chosen: Chosen;
  readonly diver: Diver;
  readonly matches: readonly (RecordedAs | null)[];
  readonly change: (chosen: Chosen) => void;
}): ReactNode {
  const { chosen, diver, matches, change } = props;
  const trip = useDesk((state) => state.trip);
  const zones = [...new Set(chosen.reading.dives.map(({ zone }) => zone).filter((zone) => zone !== ''))];
  const options = trip.dives.filter((dive) => isOnDive(dive, diver.id));
  return (
    <>
      <div className={styles.asked}>
        <Choice
          label="Whose dives"
          value={chosen.diverId}
          options={trip.party.map(({ id, name }) => ({ value: id, label: name }))}
          commit={(diverId) => change({ ...chosen, diverId, corrected: {} })}
        />
        <Field<number>
          label="Add to its times, min"
          value={chosen.shiftMin}
          show={String}
          parse={parseShift}
          commit={(shiftMin) => change({ ...chosen, shiftMin, corrected: {} })}
          hint={
            zones.length === 0
              ? 'Where its clock was not the trip’s: 60 for an hour behind, -60 for an hour ahead.'
              : `The file gives its times as of ${zones.join(', ')}: is that the clock at the trip’s place? Else add the minutes.`
          }
        />
      </div>
      <table className={styles.rows}>
        <caption className="unseen">Dives of the file</caption>
        <thead>
          <tr>
            <th scope="col">In</th>
            <th scope="col" className={styles.figure}>
              Deepest
            </th>
            <th scope="col" className={styles.figure}>
              Bottom
            </th>
            <th scope="col">Oxygen, left</th>
            <th scope="col">Dive of the trip</th>
          </tr>
        </thead>
        <tbody>
          {chosen.reading.dives.map((dive, at) => (
            <Row
              key={dive.where}
              recorded={dive}
              shiftMin={chosen.shiftMin}
              diver={diver}
              options={options}
              match={matches[at] ?? null}
              correct={(as) => change({ ...chosen, corrected: { ...chosen.corrected, [at]: as } })}
            />
          ))}
        </tbody>
      </table>
    </>
  );
}

/** Before the id of a site in the list of what a recorded dive is. */
const NEW_AT = 'added at ';

function chosenAs(value: string, options: readonly Dive[]): RecordedAs | null {
  if (value === '') return null;
  if (options.some(({ id }) => id === value)) return { diveId: value };
  return { siteId: value.slice(NEW_AT.length) };
}

function Row(props: {
  readonly recorded: RecordedDive;
  readonly shiftMin: number;
  readonly diver: Diver;
  readonly options: readonly Dive[];
  readonly match: RecordedAs | null;
  readonly correct: (as: RecordedAs | null) => void;
}): ReactNode {
  const { recorded, shiftMin, diver, options, match, correct } = props;
  const { units, clock } = useDesk(({ settings }) => settings);
  const trip = useDesk((state) => state.trip);
  const words = useWords();
  const startsAt = wallText(startedMin(recorded, shiftMin));
  const dive =
    match !== null && 'diveId' in match ? options.find(({ id }) => id === match.diveId) : undefined;
  const label = ({ startsAt: planned, siteId }: Dive): string =>
    `${dateText(planned)} ${clockText(planned, clock)} ${siteName(trip, { siteId })}`;
  const when = `${dateText(startsAt)} ${clockText(startsAt, clock)}`;
  const found = [
    recorded.o2 === null ? '' : words(mixSaid(recorded.o2)),
    recorded.endBar === null
      ? ''
      : `${valueText(recorded.endBar, 'pressure', units, 'down')} ${unitName('pressure', units)}`,
  ].filter((text) => text !== '');
  return (
    <tr className={match === null ? styles.left : undefined}>
      <th scope="row">
        {when}
        {recorded.site === '' ? null : <span className={styles.site}>{recorded.site}</span>}
      </th>
      <td className={styles.figure}>{depthText(recorded.depthM, units, 'up')}</td>
      <td className={styles.figure}>{minutesText(recorded.bottomMin, 'up')}</td>
      <td>
        {found.join(', ')}
        {recorded.remarks.map((remark) => (
          <span key={remark} className={styles.remark}>
            {remark}
          </span>
        ))}
      </td>
      <td>
        <select
          aria-label={`Dive of the trip for ${when}`}
          value={match === null ? '' : 'diveId' in match ? match.diveId : `${NEW_AT}${match.siteId}`}
          onChange={({ target: { value } }) => correct(chosenAs(value, options))}
        >
          <option value="">Leave it out</option>
          {options.map((each) => (
            <option key={each.id} value={each.id}>
              {label(each)}
            </option>
          ))}
          <optgroup label={`Not planned: add it, for ${diver.name} alone`}>
            {trip.sites.map(({ id, name }) => (
              <option key={id} value={`${NEW_AT}${id}`}>
                Added at {name}
              </option>
            ))}
          </optgroup>
        </select>
        {dive ? <Apart dive={dive} diver={diver} startMin={startedMin(recorded, shiftMin)} /> : null}
        {dive && isDivedOnLoop(dive, diver.id) ? (
          <span className={styles.remark}>
            planned on a loop, with its setpoints: depth and time are taken, pressure and oxygen are not
          </span>
        ) : null}
      </td>
    </tr>
  );
}

/** How far the start lies from what the trip has, and whether something is there already. */
function Apart(props: { readonly dive: Dive; readonly diver: Diver; readonly startMin: number }): ReactNode {
  const effective = effectiveDive(props.dive, props.diver);
  const apartMin = props.startMin - effective.startMin;
  const parts = [
    apartMin === 0 ? '' : `${minutesText(Math.abs(apartMin), 'near')} ${apartMin > 0 ? 'later' : 'earlier'}`,
    effective.shape.samples
      ? 'takes the place of the profile there'
      : effective.isAsDived
        ? 'takes the place of the log there'
        : '',
  ].filter((part) => part !== '');
  return parts.length === 0 ? null : <span className={styles.remark}>{parts.join('; ')}</span>;
}
