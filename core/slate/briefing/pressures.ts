/** The pressures of each diver and dive, in groups that dive together. */
import type { Cylinder, Diver } from '../../document/types';
import type { DiverLedger, Entry } from '../../ledger/ledger-types';
import { capital, shown } from '../../words/reader';
import { cylinder, figure, inRow, listed, NOTHING, said, type Said } from '../../words/said';
import { breathedSaid } from '../../ledger/breathed-said';
import { mixSaid, NONE, ordinalSaid } from '../../words/terms';
import { numberOf } from '../card/content';
import { stressed, unmarked } from '../markup';
import { together, type Context, type Together } from './one-dive';

/** What a diver needs of a dive. */
export type BriefCell =
  | { readonly instead: string; readonly isDived: boolean }
  | { readonly mix: string; readonly turn: readonly string[]; readonly minimum: readonly string[] };

export interface BriefDiver {
  readonly name: string;
  /** "12 L, 200 bar, no. 7"; of a diver on a loop "bail-out 11 L, 200 bar" */
  readonly cylinder: string;
  /** By the number of the dive in the list. */
  readonly cells: readonly BriefCell[];
}

/** Who dives together, in order of entry. */
export interface BriefGroup {
  /** "first in: Pair A"; empty where the party is one. */
  readonly title: string;
  readonly divers: readonly BriefDiver[];
}
function pressures(context: Context, bar: number | null): readonly string[] {
  return shown(figure('pressureNeeded', bar), context.reader).map(({ value }) => value);
}

function cellOf(context: Context, entry: Entry | undefined): BriefCell {
  const { words } = context;
  if (entry === undefined) return { instead: words(said`stays up`), isDived: false };
  if (!entry.isMade || entry.loop !== null) {
    return { instead: words(breathedSaid(entry)), isDived: entry.isMade };
  }
  const { turnBar, minimumBar } = entry.gas;
  return {
    mix: words(mixSaid(entry.o2!)),
    turn: pressures(context, turnBar),
    minimum: pressures(context, minimumBar),
  };
}

function sizeSaid({ waterL, fillBar }: Cylinder): Said {
  return said`${cylinder({ waterL, fillBar })}, ${figure('pressureLeft', fillBar)}`;
}

/** What a diver carries on the dives of a day: the cylinder, on a loop the bail-out. */
function carriedSaid(diver: Diver, entries: readonly Entry[]): Said {
  const { cylinderNo = '', loop } = diver;
  const size = sizeSaid(diver.cylinder);
  const own = cylinderNo === '' ? size : said`${size}, no. ${unmarked(cylinderNo)}`;
  if (loop === undefined || entries.every((entry) => entry.loop === null)) return own;
  const bailOut = said`bail-out ${listed(loop.bailOut.map((each) => sizeSaid(each.cylinder)))}`;
  return entries.some((entry) => entry.loop === null) ? said`${inRow([own, bailOut])}` : bailOut;
}

/** Groups in order of entry, and in that of the party where two enter together. */
export function groupsOf(
  context: Context,
  divers: readonly DiverLedger[],
  dives: readonly Together[],
): readonly BriefGroup[] {
  const { words, figures } = context;
  const byName = new Map<string, { afterMin: number; divers: BriefDiver[] }>();
  for (const { diver } of divers) {
    const own = dives.map(({ entries }) => entries.find((entry) => entry.diver.id === diver.id));
    const name = diver.group?.name ?? '';
    const known = byName.get(name) ?? { afterMin: diver.group?.afterMin ?? 0, divers: [] };
    byName.set(name, known);
    known.divers.push({
      name: unmarked(diver.name),
      cylinder: figures(
        carriedSaid(
          diver,
          own.flatMap((entry) => entry ?? []),
        ),
      ),
      cells: own.map((entry) => cellOf(context, entry)),
    });
  }
  const groups = [...byName].toSorted(([, a], [, b]) => a.afterMin - b.afterMin);
  const times = [...new Set(groups.map(([, { afterMin }]) => afterMin))];
  return groups.map(([name, group]) => {
    const when =
      group.afterMin === 0
        ? said`at the start`
        : said`${figure('minutesTyped', group.afterMin)} after the start`;
    const place = ordinalSaid(times.indexOf(group.afterMin) + 1);
    const who = name === '' ? said`the others` : said`${stressed(unmarked(name))}`;
    const title =
      groups.length === 1
        ? name === ''
          ? NOTHING
          : said`${who}, in ${when}`
        : times.length === 1
          ? said`${who}`
          : said`${place} in: ${who}, ${when}`;
    return { title: capital(words(title)), divers: group.divers };
  });
}

/** Why a dash stands in the place of a pressure, once for all whom it concerns. */
export function missingOf(context: Context, dives: readonly Together[]): readonly string[] {
  return dives.flatMap(({ entries }) => {
    const number = numberOf(context.trip, entries[0]!.dive);
    const rows = together(context, entries, ({ isMade, loop, gas }) => {
      if (!isMade || loop !== null || gas.turnBar !== null) return null;
      return gas.minimumBar === null
        ? said`no turn and no minimum, no ascent on this gas was found.`
        : said`no turn, the fill is below the minimum.`;
    });
    return rows.map(([names, text]) =>
      context.words(said`${NONE} Dive ${number}, ${listed(names)}: ${text}`),
    );
  });
}
