import { siteName } from '../../core/document/site-of';
import type { Caution } from '../../core/cautions/caution';
import { standingOf, stateSaid } from '../../core/cautions/standing';
import { divesAhead } from '../../core/ledger/ahead';
import type { Entry, Ledger } from '../../core/ledger/ledger-types';
import { roomMinutes, type MinutesRoom } from '../../core/ledger/room';
import { roomSaid } from '../../core/ledger/room-said';
import { isPastRoom, tightestOf } from '../../core/ledger/tightest';
import { momentAt } from '../../core/words/calendar';
import { inRow, NOTHING, said, type Piece, type Said } from '../../core/words/said';
import { divesSaid } from '../../core/words/terms';

/** So many dives past a limit are named; the cautions below name all. */
const NAMED = 3;

/**
 * How the trip stands, as the sentence it begins with: what passes a limit, then the tightest that keeps every one. Of a
 * trip that is logged in part that of the dives ahead; no clock is asked.
 */
export function headline(ledger: Ledger, cautions: readonly Caution[]): Said {
  const rooms = new Map<Entry, MinutesRoom>();
  for (const each of ledger.divers) {
    for (const entry of each.entries) rooms.set(entry, roomMinutes(ledger.trip, entry));
  }
  const roomOf = (entry: Entry): MinutesRoom => rooms.get(entry)!;
  if (rooms.size === 0) return NOTHING;
  const ahead = divesAhead(ledger.trip, null);
  const asked = new Set([...rooms.keys()].flatMap(({ dive }) => (ahead.has(dive.id) ? dive.id : [])));
  if (asked.size === 0) return said`No dive is ahead.`;
  const standing = standingOf(ledger, cautions, roomOf, asked, null);
  const state = stateSaid(standing, null);
  const placeOf = (entry: Entry): Piece =>
    inRow([momentAt(entry.startMin), siteName(ledger.trip, entry.dive), entry.diver.name]);
  const worst = state.diveIds.map((id): Said => {
    const entries = [...rooms.keys()].filter(({ dive }) => dive.id === id);
    const [least] = tightestOf(
      entries.filter((entry) => isPastRoom(entry, roomOf(entry))),
      roomOf,
    );
    return least === undefined
      ? said`${placeOf(entries[0]!)}`
      : said`${placeOf(least)}: ${roomSaid(least, roomOf(least))}`;
  });
  const named = worst.slice(0, NAMED);
  const where = named.reduce((before, next) => said`${before}; ${next}`, named.shift() ?? NOTHING);
  const rest = worst.length > NAMED ? said`; ${worst.length - NAMED} more` : NOTHING;
  const begins = worst.length === 0 ? said`${state.says}.` : said`${state.says}: ${where}${rest}.`;
  const [least, ...alike] = standing.tight;
  if (least === undefined) return begins;
  const others = new Set(alike.map(({ dive }) => dive.id).filter((id) => id !== least.dive.id));
  const more = others.size === 0 ? NOTHING : said`; ${divesSaid(others.size)} more as tight`;
  return said`${begins} Tightest: ${placeOf(least)}: ${roomSaid(least, roomOf(least))}${more}.`;
}
