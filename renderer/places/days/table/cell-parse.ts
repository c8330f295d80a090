/** What was typed or pasted into a cell of the table, read into the dive or refused with a reason. */
import type { Level } from '../../../../core/profile';
import { dayNumber, dateSaid, wallDate, wallMin, wallMinIfReal } from '../../../../core/words/calendar';
import { printed } from '../../../../core/words/quantity';
import type { Words } from '../../../../core/words/reader';
import { said, type Said } from '../../../../core/words/said';
import type { Settings } from '../../../../core/host';
import type { Dive, Trip } from '../../../../core/document/types';
import { withBottomMin, withDepth, withLevels } from '../../../actions/dives';
import { isSameName } from '../../../figures/names';
import { parseClock, parseFigure, parseMinutes, parseShare } from '../../../figures/parse';
import type { PLANNED } from './table-rows';

export interface CellContext {
  readonly trip: Trip;
  readonly settings: Pick<Settings, 'units' | 'clock'>;
  readonly words: Words;
}

export type CellResult =
  | { readonly ok: true; readonly dive: Dive }
  | { readonly ok: false; readonly why: Said };

export type PlannedColumn = (typeof PLANNED)[number];

const taken = (dive: Dive): CellResult => ({ ok: true, dive });
const refused = (why: Said): CellResult => ({ ok: false, why });

/** The dive with a cell's text in it. */
export function withCell(dive: Dive, column: PlannedColumn, text: string, context: CellContext): CellResult {
  return READERS[column](dive, text.trim(), context);
}

type CellReader = (dive: Dive, text: string, context: CellContext) => CellResult;

const READERS: Readonly<Record<PlannedColumn, CellReader>> = {
  day: (dive, text, { words }) => {
    const date = dateOf(text, dive.startsAt.slice(0, 10), words);
    return date === null
      ? refused(said`“${text}” is no day near the others; type one such as 17, Wed 17 or 2027-03-17.`)
      : taken({ ...dive, startsAt: `${date}T${dive.startsAt.slice(11)}` });
  },
  start: (dive, text, { settings }) => {
    const time = parseClock(text, settings.clock);
    return time.ok
      ? taken({ ...dive, startsAt: `${dive.startsAt.slice(0, 10)}T${time.value}` })
      : refused(said`${time.what} ${time.mend}`);
  },
  site: (dive, text, { trip }) => {
    const exact = trip.sites.find(({ name }) => isSameName(name, text));
    const begun = trip.sites.filter(({ name }) => name.toLowerCase().startsWith(text.toLowerCase()));
    const site = exact ?? (text !== '' && begun.length === 1 ? begun[0] : undefined);
    if (site) return taken({ ...dive, siteId: site.id });
    return begun.length > 1 && text !== ''
      ? refused(said`More than one site begins with “${text}”.`)
      : refused(said`There is no site “${text}”; add it under Sites first.`);
  },
  depth: (dive, text, { settings }) => {
    const depth = parseFigure(text, 'depth', settings.units);
    return depth.ok ? taken(withDepth(dive, depth.value)) : refused(said`${depth.what} ${depth.mend}`);
  },
  time: (dive, text) => {
    const min = parseMinutes(text);
    if (!min.ok) return refused(said`${min.what} ${min.mend}`);
    const before = (dive.legs ?? []).slice(0, -1).reduce((sum, level) => sum + level.min, 0);
    return before > 0 && min.value <= before
      ? refused(said`The levels before the last one take longer.`)
      : taken(withBottomMin(dive, min.value));
  },
  levels: (dive, text, { settings }) => {
    if (text === '') return taken(withLevels(dive, [{ depthM: dive.depthM, min: dive.bottomMin }]));
    const levels: Level[] = [];
    for (const part of text.split(/[\s;]+/)) {
      const [depthText = '', minText = ''] = part.split('/');
      const depth = parseFigure(depthText, 'depth', settings.units);
      const min = parseMinutes(minText);
      if (!depth.ok || !min.ok)
        return refused(said`“${part}” is no level; type depth and time such as 26/16 14/22.`);
      levels.push({ depthM: depth.value, min: min.value });
    }
    return taken(withLevels(dive, levels));
  },
  mix: (dive, text, { trip, words }) => {
    if (/^best\b/i.test(text) || isSameName(text, words(said`best`))) return taken({ ...dive, mix: 'auto' });
    const share = /^air$/i.test(text) ? ({ ok: true, value: 0.21 } as const) : parseShare(text);
    if (!share.ok) return refused(said`“${text}” is no mix; type one such as 32, Air or best.`);
    const mix = trip.mixes.find(
      ({ o2 }) => printed(o2, 'oxygen', 'metric') === printed(share.value, 'oxygen', 'metric'),
    );
    return mix
      ? taken({ ...dive, mix: mix.id })
      : refused(said`“${text}” is not on board; add it under Mixes first.`);
  },
  divers: (dive, text, { trip, words }) => {
    if (isSameName(text, words(said`all`)) || isSameName(text, 'all')) {
      const { divers: _, ...whole } = dive;
      return taken(whole);
    }
    const names = text.split(/[,;]/).map((name) => name.trim());
    const unknown = names.find((name) => !trip.party.some((diver) => isSameName(diver.name, name)));
    if (text === '' || unknown !== undefined) {
      return refused(said`There is no diver “${unknown ?? ''}”; type names with commas between, or all.`);
    }
    const ids = trip.party
      .filter(({ name }) => names.some((each) => isSameName(each, name)))
      .map(({ id }) => id);
    if (ids.length < trip.party.length) return taken({ ...dive, divers: ids });
    const { divers: _, ...whole } = dive;
    return taken(whole);
  },
};

/** So many days before and after are looked at for a day that is told by its number alone. */
const NEAR_DAYS = 15;

/**
 * A date as it is typed: whole, or the number of its day, with its weekday or month where somebody says so. A number
 * alone is the nearest such day; a weekday or month that is another day's is refused.
 */
function dateOf(text: string, near: string, words: Words): string | null {
  if (/^\d{4}-\d\d-\d\d$/.test(text)) return wallMinIfReal(`${text}T00:00`) === null ? null : text;
  const tokens = text
    .toLowerCase()
    .split(/[\s,.]+/)
    .filter(Boolean);
  const numbers = tokens.filter((token) => /^\d{1,2}$/.test(token));
  const letters = tokens.filter((token) => !/^\d+$/.test(token));
  if (numbers.length !== 1 || numbers.length + letters.length !== tokens.length) return null;
  const middle = dayNumber(wallMin(`${near}T00:00`));
  const offsets = Array.from({ length: 2 * NEAR_DAYS + 1 }, (_, at) =>
    at % 2 === 0 ? at / 2 : -(at + 1) / 2,
  );
  for (const offset of offsets) {
    const date = wallDate((middle + offset) * 1440);
    if (Number(date.slice(8)) !== Number(numbers[0])) continue;
    const called = words(dateSaid(date, 'day', 'month'))
      .toLowerCase()
      .split(/\s+/);
    // "wed" of "wed 17 march", or "march" cut short.
    return letters.every((letter) => called.some((word) => word.startsWith(letter.slice(0, 3))))
      ? date
      : null;
  }
  return null;
}
