/** Edits of dives that are made now and then: loaded with the sheets that make them. */
import { withLoopsOf } from '../../core/document/loops';
import type { Settings } from '../../core/host';
import { assert, failure } from '../../core/result';
import type { AsDived, Dive, Id, Site } from '../../core/document/types';
import { swapped } from '../../core/proposal/swapped';
import type { Level, Stop } from '../../core/profile';
import { clockText, depthText, minutesText, percentText } from '../figures/format';
import { say } from '../store/notice';
import { diveNumber } from '../store/selectors';
import { desk } from '../store/store';
import { atDepthOf, editDive, editDives, withLevels, without } from './dives';
import { edit, type EditResult } from './edit';
import { freeId } from './ids';
import { twinTrouble } from './site-names';

/** Makes a site and takes dives there, in one step. */
export function newSiteFor(ids: readonly Id[], name: string, depthM: number): EditResult {
  const twin = twinTrouble(name, null);
  if (twin) return twin;
  return edit({ label: `New site ${name}`, code: 'dive.new-site' }, (trip) => {
    const site: Site = { id: freeId('site-', trip.sites), name, depthM, notes: '' };
    const dives = trip.dives.map((dive) =>
      ids.includes(dive.id) ? { ...atDepthOf(dive, depthM), siteId: site.id } : dive,
    );
    return { ...trip, sites: [...trip.sites, site], dives };
  });
}

/** Two dives change places in time; refused where one of them was logged. */
export function swapDives(oneId: Id, otherId: Id): EditResult {
  const { trip } = desk.getState();
  const logged = trip.dives.find(
    ({ id, asDived, notDived }) =>
      (id === oneId || id === otherId) && (asDived ?? []).length + (notDived ?? []).length > 0,
  );
  if (logged) {
    return failure({
      kind: 'in-use',
      what: `Dive ${diveNumber(trip, logged.id)} was logged as dived, and stays where it was.`,
      where: '',
      mend: 'Swap two dives that are ahead.',
    });
  }
  const label = `Swap of dives ${diveNumber(trip, oneId)} and ${diveNumber(trip, otherId)}`;
  return edit({ label, code: 'dive.swap' }, (before) => swapped(before, oneId, otherId));
}

/** Who dives it; null: the whole party. */
export function setDiveParty(diveId: Id, divers: readonly Id[] | null): EditResult {
  return editDive(diveId, 'Divers', 'dive.divers', (dive) =>
    divers === null ? without(dive, 'divers') : { ...withLoopsOf(dive, (id) => divers.includes(id)), divers },
  );
}

/** null: none. undefined: the usual one. */
export function setSafetyStop(diveId: Id, safetyStop: Stop | null | undefined): EditResult {
  return editDive(diveId, 'Safety stop', 'dive.stop', (dive) =>
    safetyStop === undefined ? without(dive, 'safetyStop') : { ...dive, safetyStop },
  );
}

export function setTurnShare(diveId: Id, turnShare: number | undefined): EditResult {
  return editDive(diveId, 'Turn', 'dive.turn', (dive) =>
    turnShare === undefined ? without(dive, 'turnShare') : { ...dive, turnShare },
  );
}

/** The levels in order. A single one is the dive's own depth and time: the file then says no more than it must. */
export function setLevels(diveId: Id, legs: readonly Level[]): EditResult {
  return editDive(diveId, 'Levels', 'dive.levels', (dive) => withLevels(dive, legs));
}

/** What was really dived, for one diver or for everybody; null takes the record back, `forgetAsDived` says so too. */
export function setAsDived(diveId: Id, by: Id | null, record: Omit<AsDived, 'by'> | null): EditResult {
  return editDive(diveId, 'What was logged as dived', 'dive.as-dived', (dive) => {
    const others = (dive.asDived ?? []).filter((each) => (each.by ?? null) !== by);
    const records = record === null ? others : [...others, by === null ? record : { ...record, by }];
    return records.length === 0 ? without(dive, 'asDived') : { ...dive, asDived: records };
  });
}

/**
 * Takes back what was logged of a dive, and says what was lost and that one step brings it back.
 * @param by whose record; null: the one for everybody
 */
export function forgetAsDived(diveId: Id, by: Id | null): EditResult {
  const { trip, settings } = desk.getState();
  const record = trip.dives
    .find(({ id }) => id === diveId)
    ?.asDived?.find((each) => (each.by ?? null) === by);
  assert(record !== undefined, 'nothing is logged to be forgotten');
  const whose = trip.party.find(({ id }) => id === by)?.name;
  const number = diveNumber(trip, diveId);
  const logged = loggedText(record, settings);
  const result = setAsDived(diveId, by, null);
  if (result.ok) {
    say({
      tone: 'said',
      lines: [
        {
          what: `What was logged of dive ${number}${whose === undefined ? '' : ` for ${whose}`} was taken away: ${logged}.`,
          where: '',
          mend: '',
        },
      ],
      canUndo: true,
    });
  }
  return result;
}

/** "started 09:35, 21.5 m, 41 min, 31.8 % oxygen" */
function loggedText({ startsAt, depthM, bottomMin, o2 }: AsDived, { units, clock }: Settings): string {
  return [
    ...(startsAt === undefined ? [] : [`started ${clockText(startsAt, clock)}`]),
    ...(depthM === undefined ? [] : [depthText(depthM, units)]),
    ...(bottomMin === undefined ? [] : [minutesText(bottomMin, 'near')]),
    ...(o2 === undefined ? [] : [`${percentText(o2, 'near', 1)} oxygen`]),
  ].join(', ');
}

/** Puts a diver on dives or takes them off, all in one step; refused where a dive would be left without anybody. */
export function setOnDives(diverId: Id, diveIds: readonly Id[], isOn: boolean): EditResult {
  const { trip } = desk.getState();
  const after = ({ divers }: Dive): readonly Id[] =>
    trip.party.map(({ id }) => id).filter((id) => (id === diverId ? isOn : (divers?.includes(id) ?? true)));
  const empty = trip.dives.findIndex((dive) => diveIds.includes(dive.id) && after(dive).length === 0);
  if (empty >= 0) {
    return failure({
      kind: 'in-use',
      what: `Dive ${empty + 1} would be left without anybody.`,
      where: `dives[${empty}].divers (dive "${trip.dives[empty]!.id}")`,
      mend: 'Put somebody else on it first, or remove the dive.',
    });
  }
  return editDives(diveIds, 'Divers', 'dive.divers', (dive) => {
    const divers = after(dive);
    const rest = withLoopsOf(dive, (id) => divers.includes(id));
    return divers.length === trip.party.length ? without(rest, 'divers') : { ...rest, divers };
  });
}
