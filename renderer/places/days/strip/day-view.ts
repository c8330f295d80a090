/** What is told of each day: dives, time in the water, oxygen against its allowance, the tightest dive. */
import { grouped } from '../../../../core/grouped';
import { dayNumber, wallDate } from '../../../../core/words/calendar';
import type { DiverLedger } from '../../../../core/ledger/ledger-types';
import { countText, dateText, numberText, ordinalText, percentText } from '../../../figures/format';
import { hasMinutes, type DiveView } from './dive-view';
import { hoursWords } from './strip-words';
import type { Span } from './time-scale';

export interface DayView {
  /** Whole days since 1970-01-01. */
  readonly day: number;
  readonly date: string;
  readonly dives: number;
  readonly bottomMin: number;
  /** Peak of the rolling 24 h allowance, the highest of the divers shown; null where it cannot be known. */
  readonly cnsDayPeak: number | null;
  /** Of the diver whose share of the day's allowance is largest; null on a day without dives. */
  readonly otu: { readonly taken: number; readonly allowed: number } | null;
  /** The dives with the least room, counted from 1 over the day, and how much that is. */
  readonly tightest: Tightest | null;
}

interface Tightest {
  readonly ofDay: readonly number[];
  readonly room: string;
}

/** The dives of each day that has any, in order. */
export function divesByDay(dives: readonly DiveView[]): ReadonlyMap<number, readonly DiveView[]> {
  return grouped(dives, ({ startMin }) => dayNumber(startMin));
}

/**
 * @param divers the chosen diver, or the whole party: of these the one who takes most is told
 * @param dives those shown, in order of start
 */
export function dayViews(
  span: Span,
  divers: readonly DiverLedger[],
  dives: readonly DiveView[],
): readonly DayView[] {
  const linesOn = grouped(
    divers.flatMap(({ days }) => days),
    ({ date }) => date,
  );
  const divesOn = divesByDay(dives);
  return Array.from({ length: span.dayCount }, (_, i) => {
    const day = span.firstDay + i;
    const date = wallDate(day * 1440);
    const lines = linesOn.get(date) ?? [];
    const onDay = (divesOn.get(day) ?? []).filter((dive) => !dive.isAbsent);
    const ofDay = onDay.flatMap((dive, at) => (dive.isTightestOfDay ? at + 1 : []));
    const room = onDay[ofDay[0]! - 1]?.room;
    let most = lines[0];
    for (const line of lines) {
      if (most !== undefined && line.otu / line.otuAllowed > most.otu / most.otuAllowed) most = line;
    }
    return {
      day,
      date,
      dives: onDay.length,
      bottomMin: Math.max(0, ...lines.map((line) => line.bottomMin)),
      cnsDayPeak: lines.reduce<number | null>(
        (peak, { cnsDayPeak }) => (peak === null || cnsDayPeak === null ? null : Math.max(peak, cnsDayPeak)),
        0,
      ),
      otu: most === undefined ? null : { taken: most.otu, allowed: most.otuAllowed },
      tightest: room ? { ofDay, room } : null,
    };
  });
}

/** "the second", "the first and third" */
function namedText(ofDay: readonly number[]): string {
  const names = ofDay.map(ordinalText);
  const last = names.pop()!;
  return names.length === 0 ? `the ${last}` : `the ${names.join(', ')} and ${last}`;
}

/** "6 min left", "4 min over", "past the PO2 limit" */
function leftText(room: string): string {
  if (!hasMinutes(room)) return room;
  return room.startsWith('−') ? `${room.slice(1)} over` : `${room} left`;
}

/** The same in a sentence, for who cannot see the page and as the tip over a narrow day. */
export function headSentence(view: DayView): string {
  const date = dateText(view.date, true);
  if (view.dives === 0) return `${date}: no dives`;
  const parts = [
    `${date}: ${countText(view.dives)} ${view.dives === 1 ? 'dive' : 'dives'}`,
    `${hoursWords(view.bottomMin)} of bottom time`,
    `oxygen ${percentText(view.cnsDayPeak, 'up')} of the 24 h allowance`,
    view.otu === null ? '' : otuText(view.otu),
    view.tightest === null
      ? ''
      : `${view.tightest.ofDay.length === 1 ? 'tightest is' : 'tightest are'} ${namedText(view.tightest.ofDay)}: ${leftText(view.tightest.room)}`,
  ];
  return parts.filter((part) => part !== '').join(', ');
}

/** Where only this fits; the whole stands in its tip and its name. */
export function takenText({ taken }: { readonly taken: number }): string {
  return `${numberText(taken, 0, 'up')} OTU`;
}

export function otuText({ taken, allowed }: { readonly taken: number; readonly allowed: number }): string {
  return `${numberText(taken, 0, 'up')} of ${numberText(allowed, 0, 'down')} OTU`;
}
