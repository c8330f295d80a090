import type { Id, Trip } from '../../document/types';
import { wallText, type WallMin } from '../../words/calendar';
import type { Words } from '../../words/reader';
import type { DiveFigures } from './figures';
import { nothingToMend } from './moves-said';
import type { MoveSteps, Treatment } from './moves';
import type { DiveChange, Mending, MendKind, Proposal } from './proposals';

/** A move as it stands in the document, amounts in minutes and metres. */
export type MoveDocument =
  | { readonly diveId: Id; readonly move: 'later'; readonly amount: number }
  | { readonly diveId: Id; readonly move: 'shallower'; readonly amount: number }
  /** @param level from 0: whose minutes are taken */
  | { readonly diveId: Id; readonly move: 'shorter'; readonly amount: number; readonly level: number }
  | { readonly diveId: Id; readonly move: 'mix'; readonly mixId: Id }
  | { readonly diveId: Id; readonly move: 'leave-out'; readonly diverId: Id }
  | { readonly diveId: Id; readonly move: 'drop' };

/** What `mend --json` prints, version 1. */
export interface MendingDocument {
  readonly format: 'carryover/mending';
  readonly version: 1;
  readonly title: string;
  /** Dives that are done, from the first on. */
  readonly done: number;
  /** Cautions that are to be mended. */
  readonly cautions: readonly {
    readonly code: string;
    readonly diveId: Id | null;
    readonly diverId: Id | null;
  }[];
  readonly proposals: readonly {
    readonly kind: MendKind;
    readonly cost: number;
    /** No plan of the kind costs less: as `cost` where it is proved to be the best. */
    readonly atLeast: number;
    readonly moves: readonly MoveDocument[];
    readonly entries: readonly ReturnType<typeof entryDocument>[];
    /** No flying before this moment; null where nobody dives. */
    readonly flyAfter: { readonly before: string | null; readonly after: string | null };
  }[];
  /** Kinds of which there is no proposal, and why. */
  readonly none: readonly { readonly kind: MendKind; readonly reason: string }[];
  /** Why nothing is proposed; null where something is. */
  readonly reason: string | null;
}

function movesOf(trip: Trip, id: Id, treatment: Treatment, steps: MoveSteps): readonly MoveDocument[] {
  const { isDropped, later, shallower, level, shorter, mix, leftOut } = treatment;
  if (isDropped) return [{ diveId: id, move: 'drop' }];
  const moves: MoveDocument[] = [];
  if (later > 0) moves.push({ diveId: id, move: 'later', amount: later * steps.laterMin });
  if (shallower > 0) moves.push({ diveId: id, move: 'shallower', amount: shallower * steps.shallowerM });
  if (shorter > 0) moves.push({ diveId: id, move: 'shorter', amount: shorter * steps.shorterMin, level });
  if (mix !== null) moves.push({ diveId: id, move: 'mix', mixId: mix });
  for (const place of leftOut) moves.push({ diveId: id, move: 'leave-out', diverId: trip.party[place]!.id });
  return moves;
}

function figuresDocument({ dive, room, intervalMin, left, scrubber, cautions }: DiveFigures) {
  const { startsAt, depthM, bottomMin, legs, mix, divers } = dive;
  return {
    startsAt,
    depthM,
    bottomMin,
    ...(legs && { legs }),
    mix,
    ...(divers && { divers }),
    /** Of who has least. */
    roomMin: room?.min ?? null,
    roomLimit: room?.limit ?? null,
    roomDiverId: room?.diverId ?? null,
    intervalMin,
    endBar: left?.bar ?? null,
    endDiverId: left?.diverId ?? null,
    ...(scrubber && { scrubberLeftMin: scrubber.min, scrubberDiverId: scrubber.diverId }),
    cautions,
  };
}

function entryDocument({ diveId, before, after }: DiveChange) {
  return { diveId, before: figuresDocument(before), after: after && figuresDocument(after) };
}

function textOrNull(min: WallMin | null): string | null {
  return min === null ? null : wallText(min);
}

function proposalDocument(trip: Trip, steps: MoveSteps, proposal: Proposal) {
  const { kind, plan, cost, atLeast, changes, flyAfter } = proposal;
  return {
    kind,
    cost,
    atLeast,
    moves: plan.flatMap((treatment, at) => movesOf(trip, trip.dives[at]!.id, treatment, steps)),
    entries: changes.map(entryDocument),
    flyAfter: { before: textOrNull(flyAfter.before), after: textOrNull(flyAfter.after) },
  };
}

/**
 * The document of the command `mend`, figures as computed, nothing rounded.
 * @param words of whom the reasons are for
 * Source: format carryover/mending of this project, version 1.
 */
export function mendingDocument(
  trip: Trip,
  { request, toMend, proposals, none }: Mending,
  words: Words,
): MendingDocument {
  const [first] = none;
  const nothing = toMend.length === 0 ? words(nothingToMend(request)) : first && words(first.because);
  return {
    format: 'carryover/mending',
    version: 1,
    title: trip.title,
    done: request.doneCount,
    cautions: toMend.map(({ code, diveId, diverId }) => ({ code, diveId, diverId })),
    proposals: proposals.map((each) => proposalDocument(trip, request.steps, each)),
    none: none.map(({ kind, because }) => ({ kind, reason: words(because) })),
    reason: proposals.length > 0 ? null : (nothing ?? null),
  };
}
