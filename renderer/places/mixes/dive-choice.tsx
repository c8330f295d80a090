import { useMemo, type ReactNode } from 'react';
import { mixChoices, type DiverChoice, type LaterChange, type MixChoice } from '../../../core/mixes/choice';
import type { MinutesRoom } from '../../../core/ledger/room';
import { roomOrder, tightestOf } from '../../../core/ledger/tightest';
import { richestMix } from '../../../core/mixes/richest';
import type { Dive, Trip } from '../../../core/document/types';
import { setMix } from '../../actions/dives';
import { tell } from '../../actions/edit';
import {
  clockText,
  dateText,
  depthText,
  mixText,
  NO_FIGURE,
  numberText,
  percentText,
} from '../../figures/format';
import { Choice } from '../../parts/choice';
import {
  diveNumber,
  partyOf,
  selectChosenDive,
  selectLedger,
  selectTightest,
  siteOf,
} from '../../store/selectors';
import { useDesk } from '../../store/store';
import { chooseView, useMixesView } from './mixes-view';
import { moneyText, noStopOfDive, richestText, roomOfDive, whyText } from './mixes-words';
import { WideTable } from './wide-table';
import { surroundingsOf } from '../../../core/profile';

function diveName(trip: Trip, dive: Dive, clock: '24h' | '12h'): string {
  const site = siteOf(trip, dive.siteId)?.name ?? dive.siteId;
  return `${diveNumber(trip, dive.id)}. ${dateText(dive.startsAt)} ${clockText(dive.startsAt, clock)}, ${site}`;
}

/** The diver a choice leaves with the least room, else the first of whom nothing is known. */
function tightestDiver({ divers }: MixChoice): DiverChoice | null {
  const byEntry = new Map(divers.map((each) => [each.entry, each]));
  const [least] = tightestOf([...byEntry.keys()], (entry) => byEntry.get(entry)!.room);
  return (least && byEntry.get(least)) ?? divers[0] ?? null;
}

/** A choice as it is for one diver. */
function onlyOf(choice: MixChoice, diverId: string): MixChoice {
  const divers = choice.divers.filter((each) => each.diverId === diverId);
  return { ...choice, divers, allowed: divers.every((each) => each.whyNot === null) };
}

/** The most any of the divers takes of a figure. */
function most(choice: MixChoice, figure: (diver: DiverChoice) => number | null): number | null {
  const values = choice.divers.map(figure);
  return values.includes(null) || values.length === 0 ? null : Math.max(...values.map(Number));
}

function figureText(value: number | null | undefined, decimals: number): string {
  return typeof value === 'number' ? numberText(value, decimals, 'up') : NO_FIGURE;
}

function ChoiceRow(props: {
  readonly choice: MixChoice;
  readonly dive: Dive;
  readonly isTaken: boolean;
}): ReactNode {
  const { choice, dive, isTaken } = props;
  const units = useDesk(({ settings }) => settings.units);
  const currency = useDesk(({ trip }) => trip.currency);
  const least = tightestDiver(choice);
  const later = readable(choice.later).length;
  const reason = choice.divers.find((each) => each.whyNot)?.whyNot ?? null;
  const name = mixText(choice.mix.analysedO2 ?? choice.mix.o2);
  const entry = least?.entry;
  return (
    <tr className={isTaken ? 'taken' : ''}>
      <th scope="row">
        {name}
        {isTaken ? <span className="soft"> now</span> : null}
      </th>
      <td>{reason ? <span className="cell-why">{whyText(reason, units)}</span> : 'yes'}</td>
      <td className="figure">{entry ? noStopOfDive(entry, units) : NO_FIGURE}</td>
      <td className={least && roomOrder(least.entry, least.room) < 0 ? 'figure care' : 'figure'}>
        {least ? roomOfDive(least.entry, least.room) : NO_FIGURE}
      </td>
      <td>{figureText(entry?.po2Bar, 2)}</td>
      <td>
        {percentText(
          most(choice, (each) => each.entry.cns.after),
          'up',
        )}
      </td>
      <td>
        {figureText(
          most(choice, (each) => each.entry.otu.dive),
          0,
        )}
      </td>
      <td>{figureText(entry?.gasDensityGL, 1)} g/L</td>
      <td>{moneyText(choice.mix.costPerFill, currency)}</td>
      <td>{later === 0 ? 'nothing' : divesText(later)}</td>
      <td>
        <button
          type="button"
          className="button"
          disabled={dive.mix === choice.mix.id}
          aria-label={`Take ${name} on this dive`}
          onClick={() => tell(setMix(dive.id, choice.mix.id))}
        >
          Take
        </button>
      </td>
    </tr>
  );
}

function minuteText(min: number | null): string {
  return min === null ? 'no limit' : numberText(min, 1, 'down');
}

/** To the tenth, as a small change is what is looked for here. */
function minuteChange(beforeMin: number | null, afterMin: number | null): string {
  const [before, after] = [minuteText(beforeMin), minuteText(afterMin)];
  return before === after ? 'same' : `${before} → ${after} min`;
}

/** Room as minutes; what is past a limit without a figure is said to be. */
function roomChange({ entry, roomBefore, roomAfter }: LaterChange): string {
  const text = (room: MinutesRoom): string =>
    room.min === null ? roomOfDive(entry, room) : minuteText(room.min);
  const [before, after] = [text(roomBefore), text(roomAfter)];
  if (before === after) return 'same';
  return `${before} → ${after}${roomAfter.min === null ? '' : ' min'}`;
}

function cnsChange({ cnsBefore, cnsAfter }: LaterChange): string {
  const [before, after] = [percentText(cnsBefore, 'up', 1), percentText(cnsAfter, 'up', 1)];
  return before === after ? 'same' : `${before} → ${after}`;
}

/** Changes that can be read; what differs past the first decimal is none to plan by. */
function readable(changes: readonly LaterChange[]): readonly LaterChange[] {
  return changes.filter(
    (change) =>
      roomChange(change) !== 'same' ||
      minuteChange(change.noStopBeforeMin, change.noStopAfterMin) !== 'same' ||
      cnsChange(change) !== 'same',
  );
}

function divesText(count: number): string {
  return count === 1 ? '1 dive' : `${count} dives`;
}

function LaterRow({ change, trip }: { readonly change: LaterChange; readonly trip: Trip }): ReactNode {
  const clock = useDesk(({ settings }) => settings.clock);
  const diver = trip.party.find(({ id }) => id === change.diverId);
  const isMin = roomOrder(change.entry, change.roomAfter);
  const isLess = isMin < roomOrder(change.entry, change.roomBefore);
  return (
    <tr>
      <th scope="row">{diveName(trip, change.dive, clock)}</th>
      <td>{diver?.name ?? change.diverId}</td>
      <td className={isLess && isMin < 0 ? 'care' : ''}>{roomChange(change)}</td>
      <td>{minuteChange(change.noStopBeforeMin, change.noStopAfterMin)}</td>
      <td>{cnsChange(change)}</td>
    </tr>
  );
}

/** What another mix would change later, dive by dive. */
function Later({ choice, trip }: { readonly choice: MixChoice; readonly trip: Trip }): ReactNode {
  const name = mixText(choice.mix.analysedO2 ?? choice.mix.o2);
  const changes = readable(choice.later);
  if (changes.length === 0) return null;
  return (
    <details className="later">
      <summary>
        What {name} changes later: {divesText(changes.length)}
      </summary>
      <WideTable label={`Later dives with ${name}`}>
        <table className="plain-table">
          <thead>
            <tr>
              <th scope="col">Dive</th>
              <th scope="col">Then tightest</th>
              <th scope="col">Room</th>
              <th scope="col">No-stop time</th>
              <th scope="col">CNS on surfacing</th>
            </tr>
          </thead>
          <tbody>
            {changes.map((change) => (
              <LaterRow key={change.dive.id} change={change} trip={trip} />
            ))}
          </tbody>
        </table>
      </WideTable>
    </details>
  );
}

function Best({ trip, dive }: { readonly trip: Trip; readonly dive: Dive }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const around = surroundingsOf(trip);
  const byText = new Map<string, string[]>();
  for (const diver of partyOf(trip, dive)) {
    const best = richestMix(dive.depthM, diver, trip, around);
    const held = best.limit === 'ceiling' ? ' (own ceiling)' : '';
    const text = `${richestText(best)}${held}`;
    byText.set(text, [...(byText.get(text) ?? []), diver.name]);
  }
  const parts = [...byText].map(([text, names]) =>
    byText.size === 1 ? text : `${text} for ${names.join(', ')}`,
  );
  const tolerance = trip.settings.analysisTolerance;
  return (
    <p>
      Richest that suits at {depthText(dive.depthM, units)}: <strong>{parts.join('; ')}</strong>
      {tolerance > 0 ? `, ${percentText(tolerance, 'up')} kept back for the analysis` : ''}.
    </p>
  );
}

/** The mixes on board as the choice of one dive, within the trip as it stands. */
export function DiveChoice(): ReactNode {
  const ledger = useDesk(selectLedger);
  const chosen = useDesk(selectChosenDive);
  const tightest = useDesk(selectTightest);
  const clock = useDesk(({ settings }) => settings.clock);
  const diveId = useMixesView((view) => view.diveId);
  const diverId = useMixesView((view) => view.diverId);
  const { trip } = ledger;
  const dive =
    trip.dives.find(({ id }) => id === diveId) ?? chosen ?? tightest?.dive ?? trip.dives[0] ?? null;
  const choices = useMemo(() => (dive === null ? [] : mixChoices(ledger, dive.id)), [ledger, dive]);
  if (dive === null) return <p className="soft">No dives yet: add one under Days.</p>;
  const entries = ledger.divers.flatMap((each) => each.entries.filter((entry) => entry.dive.id === dive.id));
  const shownId = entries.some(({ diver }) => diver.id === diverId) ? diverId : null;
  const taken = new Set(
    entries.filter(({ diver }) => shownId === null || diver.id === shownId).map((entry) => entry.mix?.id),
  );
  const shown = shownId === null ? choices : choices.map((choice) => onlyOf(choice, shownId));
  const hasAnalysis = entries.some(
    (entry) => dive.asDived?.some(({ o2 }) => o2 !== undefined) && entry.isMade,
  );
  return (
    <section aria-label="Mixes for one dive">
      <div className="mixes-tools">
        <Choice
          label="Dive"
          value={dive.id}
          options={trip.dives.map((each) => ({ value: each.id, label: diveName(trip, each, clock) }))}
          commit={(id) => chooseView({ diveId: id })}
        />
        <Choice
          label="Whose figures"
          value={shownId ?? ''}
          options={[
            { value: '', label: 'The party’s tightest' },
            ...entries.map(({ diver }) => ({ value: diver.id, label: diver.name })),
          ]}
          commit={(id) => chooseView({ diverId: id === '' ? null : id })}
        />
        <button
          type="button"
          className="button"
          disabled={dive.mix === 'auto'}
          onClick={() => tell(setMix(dive.id, 'auto'))}
        >
          Richest that suits each diver
        </button>
      </div>
      <Best trip={trip} dive={dive} />
      {hasAnalysis ? (
        <p className="care">The cylinder of this dive was analysed: that rules, whatever mix is chosen.</p>
      ) : null}
      <WideTable label="Table of mixes for this dive">
        <table className="plain-table choices">
          <thead>
            <tr>
              <th scope="col">Mix</th>
              <th scope="col">May go</th>
              <th scope="col">No-stop time</th>
              <th scope="col">Room</th>
              <th scope="col">PO2</th>
              <th scope="col">CNS after</th>
              <th scope="col">OTU</th>
              <th scope="col">Density</th>
              <th scope="col">Price</th>
              <th scope="col">Changes later</th>
              <th scope="col">
                <span className="unseen">Take it</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {shown.map((choice) => (
              <ChoiceRow key={choice.mix.id} choice={choice} dive={dive} isTaken={taken.has(choice.mix.id)} />
            ))}
          </tbody>
        </table>
      </WideTable>
      {choices.map((choice) => (
        <Later key={choice.mix.id} choice={choice} trip={trip} />
      ))}
    </section>
  );
}
