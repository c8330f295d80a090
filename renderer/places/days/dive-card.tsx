import type { ReactNode } from 'react';
import { toldTogether } from '../../../core/cautions/told-together';
import type { Entry } from '../../../core/ledger/ledger-types';
import { isRoomUnknown, tightestOf } from '../../../core/ledger/tightest';
import type { Dive } from '../../../core/document/types';
import { countText, dateText, ordinalText } from '../../figures/format';
import { someNamesText } from '../../figures/names';
import { CommandButton } from '../../parts/command-button';
import { memo } from '../../store/memo';
import {
  diveNumber,
  diveOfDay,
  entriesOf,
  partyOf,
  selectCautions,
  selectRooms,
  shownEntry,
  siteOf,
} from '../../store/selectors';
import { useDesk } from '../../store/store';
import { AsDivedSheet } from './as-dived';
import { CautionItems } from '../../parts/caution-list';
import { DiveFields } from './dive-fields';
import { DiveParty } from './dive-party';
import { DiverRows } from './diver-rows';
import { Outcome } from './outcome';
import { PlanDetails } from './plan-details';
import type { Caution } from '../../../core/cautions/caution';

const cautionsOfDive = memo((cautions: readonly Caution[], diveId: string): readonly Caution[] =>
  cautions.filter((caution) => caution.diveId === diveId),
);

/** Why there is nothing to reckon of a dive that was planned. */
function missedText({ notDived = [] }: Dive): string {
  const reasons = [...new Set(notDived.flatMap(({ reason }) => reason ?? []))].join(', ');
  return `Not dived${reasons === '' ? '' : `: ${reasons}`}.`;
}

/** So many stand open; a party of twelve can raise a page of them. */
const SHOWN = 4;

/** Everything about the chosen dive: what is planned, what comes of it, the room left, the cautions. */
export function DiveCard({ dive }: { readonly dive: Dive }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const entries = useDesk((state) => entriesOf(state, dive.id));
  const entry = useDesk((state) => shownEntry(state, dive.id));
  const cautions = useDesk((state) => cautionsOfDive(selectCautions(state), dive.id));
  const diver = useDesk(({ selection }) => trip.party.find(({ id }) => id === selection.diverId) ?? null);
  const roomOf = useDesk(selectRooms);
  const tight = tightestOf(entries, roomOf);
  const site = siteOf(trip, dive.siteId);
  return (
    <section className="card" aria-label={`Dive ${diveNumber(trip, dive.id)}`}>
      <p className="soft eyebrow">
        {dateText(dive.startsAt)}, {ordinalText(diveOfDay(trip, dive))} dive
        {entry?.isAsDived ? ', as dived' : ''}
        <CautionCount cautions={cautions} />
      </p>
      <h2 className="unseen">{site?.name ?? dive.siteId}</h2>
      {/* The key gives each dive its own fields: what was being typed for one must not show in another. */}
      <DiveFields key={dive.id} dive={dive} />
      {entry?.isMade ? (
        <>
          {entries.length > 1 ? (
            <p className="soft whose">
              {whoseText(
                entry,
                diver !== null || isRoomUnknown(entry, roomOf(entry).minLimit),
                tight,
                entries.length,
              )}
            </p>
          ) : null}
          <Outcome entry={entry} />
        </>
      ) : (
        <p className="care none">
          {dive.notDived && !entry
            ? missedText(dive)
            : diver && !entry && entries.length > 0
              ? `${diver.name} does not dive this one.`
              : 'No mix on board may go there, so there is nothing to reckon. Add one, choose another or plan it shallower.'}
        </p>
      )}
      {cautions.length > 0 ? (
        <div id="cautions-of-dive" tabIndex={-1}>
          <CautionItems cautions={cautions} trip={trip} open={SHOWN} />
        </div>
      ) : null}
      {entry ? <DiverRows entries={entries} shown={entry} /> : null}
      <PlanDetails key={`plan-${dive.id}`} dive={dive} />
      <DiveParty key={`party-${dive.id}`} dive={dive} />
      <AsDivedSheet key={`dived-${dive.id}`} dive={dive} divers={partyOf(trip, dive)} />
      <p className="card-end">
        <CommandButton id="dive.copy">Duplicate</CommandButton>
        <CommandButton id="day.copy">Duplicate the day</CommandButton>
        <CommandButton id="dive.delete">Remove</CommandButton>
      </p>
    </section>
  );
}

/** Whose figures are shown, and why theirs. @param tight those with the least room; none without a limit */
function whoseText(entry: Entry, isAlone: boolean, tight: readonly Entry[], divers: number): string {
  const { name } = entry.diver;
  if (isAlone) return `For ${name}`;
  if (tight.length === 0) return `For ${name}; nobody has a limit in reach`;
  if (tight.length === divers) return `For ${name}; it is as tight for everybody`;
  const others = tight.filter((each) => each !== entry).map(({ diver }) => diver.name);
  return others.length === 0
    ? `For ${name}, who has the least room`
    : `For ${name}, who with ${someNamesText(others)} has the least room`;
}

/** The gravest of the dive's cautions by number, beside its date: what is below must not be missed. */
function CautionCount({ cautions }: { readonly cautions: readonly Caution[] }): ReactNode {
  const told = toldTogether(cautions);
  const stops = told.filter(({ caution }) => caution.severity === 'stop').length;
  const changes = told.filter(({ caution }) => caution.severity === 'change').length;
  if (stops + changes === 0) return null;
  return (
    <a href="#cautions-of-dive">
      {stops > 0 ? `${countText(stops)} to stop for` : `${countText(changes)} to change`}
    </a>
  );
}
