/** Lists as a person types them into one field, read whole or refused with a reason. */
import type { Settings } from '../../../core/host';
import { isSameShare } from '../../../core/mixes/shares';
import { clockText, mixText } from '../../figures/format';
import { firstTwin } from '../../figures/names';
import { parseClock, parseShare, type Parsed } from '../../figures/parse';

/** Reads every item, or refuses with the reason of the first that cannot be read. */
function all<T>(
  items: readonly string[],
  parse: (item: string) => Parsed<T>,
  mend: string,
): Parsed<readonly T[]> {
  const values: T[] = [];
  for (const item of items) {
    const parsed = parse(item);
    if (!parsed.ok) return parsed;
    values.push(parsed.value);
  }
  return values.length === 0 ? { ok: false, what: 'Nothing is typed.', mend } : { ok: true, value: values };
}

function filled(items: readonly string[]): readonly string[] {
  return items.map((item) => item.trim()).filter((item) => item !== '');
}

/** Times of day: "8:00, 11:00, 14:30"; spaces part them where nothing else does. */
export function parseTimes(text: string, clock: Settings['clock']): Parsed<readonly string[]> {
  const parted = /[,;\n]/.test(text) ? text.split(/[,;\n]/) : text.split(/\s+(?![ap]\.?m?\b)/i);
  return all(
    filled(parted),
    (item) => parseClock(item, clock),
    `Type a time for each dive of a day, such as ${timesText(['08:00', '11:00'], clock)}.`,
  );
}

export function timesText(times: readonly string[], clock: Settings['clock']): string {
  return times.map((time) => clockText(`0000-00-00T${time}`, clock)).join(', ');
}

const AIR_O2 = 0.21;

/** Shares of oxygen: "21, 32, 36", "air 32", "31,5; 36". A comma that could be either sign is refused. */
export function parseShares(text: string): Parsed<readonly number[]> {
  const parted = filled(text.split(/[;\s]+|,\s+|,$/));
  // "21,32,36": two commas in one figure can only part a list.
  const items = parted.flatMap((item) => (/,.*,/.test(item) ? filled(item.split(',')) : [item]));
  const unclear = items.find((item) => /,\d{2}/.test(item));
  if (unclear !== undefined) {
    return {
      ok: false,
      what: `“${unclear}” can be read in two ways.`,
      mend: 'Put a space behind a comma that parts two mixes, and a point before decimals.',
    };
  }
  const shares = all(
    items,
    (item) => (/^air$/i.test(item) ? { ok: true, value: AIR_O2 } : parseShare(item)),
    'Type the oxygen of each mix in percent, such as 21, 32.',
  );
  if (!shares.ok) return shares;
  const twin = shares.value.find((o2, i) => shares.value.slice(0, i).some((each) => isSameShare(each, o2)));
  return twin === undefined ? shares : twice(mixText(twin), 'Type each mix once.');
}

function twice(name: string, mend: string) {
  return { ok: false, what: `${name} is given twice.`, mend } as const;
}

export function sharesText(shares: readonly number[]): string {
  return shares.map(mixText).join(', ');
}

const MOST_DIVERS = 60;

/** The names of so many divers where nobody has named them. */
export function numberedNames(count: number): readonly string[] {
  return Array.from({ length: count }, (_, at) => `Diver ${at + 1}`);
}

/** Names, or how many: "Guide, Guest 1, Guest 2" or "4". */
export function parseNames(text: string): Parsed<readonly string[]> {
  const typed = text.trim();
  if (/^\d+$/.test(typed)) {
    const count = Number(typed);
    return count >= 1 && count <= MOST_DIVERS
      ? { ok: true, value: numberedNames(count) }
      : {
          ok: false,
          what: `A party of ${typed} cannot be planned.`,
          mend: `Type 1 to ${MOST_DIVERS}, or names.`,
        };
  }
  const names = all(
    filled(typed.split(/[,;\n]/)),
    (value) => ({ ok: true, value }),
    'Type names, or how many divers there are.',
  );
  const twin = names.ok ? firstTwin(names.value) : null;
  return twin === null ? names : twice(twin, 'Type a name for each by which they are told apart.');
}

export function namesText(names: readonly string[]): string {
  const numbered = numberedNames(names.length);
  return names.every((name, at) => name === numbered[at]) ? String(names.length) : names.join(', ');
}
