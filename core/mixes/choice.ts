import { ledger as ledgerOf } from '../ledger/ledger';
import type { DiverLedger, Entry, Ledger } from '../ledger/ledger-types';
import { deepestLevel } from '../ledger/level-limits';
import { roomMinutes, type MinutesRoom } from '../ledger/room';
import { roomOrder, tightestOf } from '../ledger/tightest';
import type { Dive, Id, Mix, Trip } from '../document/types';
import { whyNot, type WhyNot } from './richest';
import { surroundingsAt } from '../document/waters';

/** What a mix would make of a dive for one diver. */
export interface DiverChoice {
  readonly diverId: Id;
  readonly whyNot: WhyNot | null;
  readonly entry: Entry;
  readonly room: MinutesRoom;
}

/** A later dive that a choice changes, for the diver it leaves tightest there. */
export interface LaterChange {
  readonly dive: Dive;
  readonly diverId: Id;
  /** As it would be made. */
  readonly entry: Entry;
  readonly roomBefore: MinutesRoom;
  readonly roomAfter: MinutesRoom;
  /** No-stop time of the same diver on the deepest level, minutes; null where it has no end. */
  readonly noStopBeforeMin: number | null;
  readonly noStopAfterMin: number | null;
  /** Single-exposure clock on surfacing; null above 1.6 bar. */
  readonly cnsBefore: number | null;
  readonly cnsAfter: number | null;
}

/** One mix on board as the choice of one dive. */
export interface MixChoice {
  readonly mix: Mix;
  readonly allowed: boolean;
  readonly divers: readonly DiverChoice[];
  readonly later: readonly LaterChange[];
}

/** Changes below these are rounding, not change: minutes, and share of a clock. */
const SAME_MIN = 1e-6;
const SAME_SHARE = 1e-9;

function roomAt(trip: Trip, ledger: DiverLedger, index: number): MinutesRoom {
  return roomMinutes(trip, ledger.entries[index]!);
}

function isChanged(a: number | null, b: number | null, same: number): boolean {
  return a === null || b === null ? a !== b : Math.abs(a - b) > same;
}

/** What one diver's later dive was and would be; null where nothing changes. */
function changeOf(dive: Dive, before: LedgerAt, after: LedgerAt): LaterChange | null {
  const change: LaterChange = {
    dive,
    diverId: after.ledger.diver.id,
    entry: after.ledger.entries[after.index]!,
    roomBefore: roomAt(before.trip, before.ledger, before.index),
    roomAfter: roomAt(after.trip, after.ledger, after.index),
    noStopBeforeMin: deepestLevel(before.ledger.entries[before.index]!.levels).noStopMin,
    noStopAfterMin: deepestLevel(after.ledger.entries[after.index]!.levels).noStopMin,
    cnsBefore: before.ledger.entries[before.index]!.cns.after,
    cnsAfter: after.ledger.entries[after.index]!.cns.after,
  };
  const wasMin = roomOrder(before.ledger.entries[before.index]!, change.roomBefore);
  const isMin = roomOrder(change.entry, change.roomAfter);
  return (wasMin !== isMin && !(Math.abs(wasMin - isMin) <= SAME_MIN)) ||
    isChanged(change.noStopBeforeMin, change.noStopAfterMin, SAME_MIN) ||
    isChanged(change.cnsBefore, change.cnsAfter, SAME_SHARE)
    ? change
    : null;
}

interface LedgerAt {
  readonly trip: Trip;
  readonly ledger: DiverLedger;
  readonly index: number;
}

function laterChanges(before: Ledger, after: Ledger, diveIndex: number): readonly LaterChange[] {
  const changes: LaterChange[] = [];
  for (const dive of after.trip.dives.slice(diveIndex + 1)) {
    const ofDivers = after.divers.flatMap((ledger, place) => {
      const index = ledger.entries.findIndex((entry) => entry.dive.id === dive.id);
      const was = { trip: before.trip, ledger: before.divers[place]!, index };
      const change = index === -1 ? null : changeOf(dive, was, { trip: after.trip, ledger, index });
      return change === null ? [] : [change];
    });
    const byEntry = new Map(ofDivers.map((change) => [change.entry, change]));
    const [tightest] = tightestOf([...byEntry.keys()], (entry) => byEntry.get(entry)!.roomAfter);
    const told = (tightest && byEntry.get(tightest)) ?? ofDivers[0];
    if (told) changes.push(told);
  }
  return changes;
}

/**
 * What each mix on board would make of one dive within the trip as it stands, and of the dives after it.
 * @param ledger of the trip as it stands @param diveId of one of its dives
 * @returns a choice a mix, leanest first, of those on open circuit; empty where there is no such dive
 * Source: the ledger itself, folded again from that dive on.
 */
export function mixChoices(ledger: Ledger, diveId: Id): readonly MixChoice[] {
  const { trip } = ledger;
  const diveIndex = trip.dives.findIndex((dive) => dive.id === diveId);
  if (diveIndex === -1) return [];
  const around = surroundingsAt(trip, trip.dives[diveIndex]!);
  return trip.mixes
    .toSorted((a, b) => a.o2 - b.o2)
    .map((mix) => {
      const dives = trip.dives.with(diveIndex, { ...trip.dives[diveIndex]!, mix: mix.id });
      const after = ledgerOf({ ...trip, dives }, ledger);
      const divers = after.divers.flatMap((each): readonly DiverChoice[] => {
        const index = each.entries.findIndex((entry) => entry.dive.id === diveId);
        if (index === -1) return [];
        const entry = each.entries[index]!;
        // A loop breathes its diluent, whatever the dive is on.
        if (entry.loop !== null) return [];
        const reason = whyNot(mix, entry.dive.depthM, each.diver, trip, around);
        return [{ diverId: each.diver.id, whyNot: reason, entry, room: roomAt(after.trip, each, index) }];
      });
      return {
        mix,
        allowed: divers.every((each) => each.whyNot === null),
        divers,
        later: laterChanges(ledger, after, diveIndex),
      };
    });
}
