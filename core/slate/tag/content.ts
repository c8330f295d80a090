/** What stands on the tag of a filled cylinder, in words and rounded for good. */
import { modM } from '../../gas';
import type { Entry } from '../../ledger/ledger-types';
import { surroundingsAt } from '../../document/waters';
import { wallDate } from '../../words/calendar';
import { printed } from '../../words/quantity';
import { shown, type Reader, type Words } from '../../words/reader';
import { bare, dayOf, figure, said } from '../../words/said';
import { mixSaid } from '../../words/terms';
import { numberOf } from '../card/content';
import { slanted, unmarked } from '../markup';
import type { DatedRequest } from '../request';

/** What may be read off an analyser, with the depth it is good for. */
export interface Rung {
  readonly share: string;
  /** One a system of units. */
  readonly mods: readonly string[];
  readonly isLabel: boolean;
  /** The dive goes deeper. */
  readonly isTooRich: boolean;
}

export interface Tag {
  readonly entry: Entry;
  readonly mix: string;
  /** Of the dive, in its day. */
  readonly number: number;
  /** Number on the cylinder; empty to be written. */
  readonly cylinder: string;
  readonly day: string;
  /** "dive 1, 34 m" */
  readonly dive: string;
  readonly diver: string;
  /** "MOD, m", one a system of units. */
  readonly modHeads: readonly string[];
  /** All in one. */
  readonly modHead: string;
  readonly rungs: readonly Rung[];
  /** As analysed; null until then. */
  readonly read: { readonly share: string; readonly mods: readonly { value: string; unit: string }[] } | null;
  /** Of the limit behind the MOD. */
  readonly modAt: string;
  /** What to do with the ladder, or how far down the reading goes. */
  readonly note: string;
  /** The same where there is little room. */
  readonly shortNote: string;
}

/** Whole percents beside the label, so many either way. */
const RUNGS = 2;

/** Nobody fills less: air as it is read, percent. */
const LEANEST = 20;

/** Shares about that of the label, percent. */
function sharesAround(percent: number): readonly number[] {
  const whole = Math.floor(percent + 1e-9);
  const isWhole = Math.abs(percent - whole) < 1e-9;
  const below = Array.from({ length: RUNGS }, (_, i) => (isWhole ? whole : whole + 1) - RUNGS + i);
  const above = Array.from({ length: RUNGS }, (_, i) => whole + 1 + i);
  return [...below, percent, ...above].filter((each) => each >= LEANEST && each <= 100);
}

function tagOf(request: DatedRequest, entry: Entry, reader: Reader, words: Words): Tag {
  const { trip } = request.ledger;
  const { column } = surroundingsAt(trip, entry.dive);
  const { dive, diver } = entry;
  const { working, contingency } = diver.po2;
  const label = entry.o2!;
  const modsOf = (o2: number) => shown(figure('depthLimit', modM(o2, working, column)), reader);
  const rungs = sharesAround(printed(label, 'oxygen', 'metric')).map((percent): Rung => {
    const o2 = percent / 100;
    return {
      share: words(said`${bare('oxygen', o2)}`),
      mods: modsOf(o2).map(({ value }) => value),
      isLabel: Math.abs(o2 - label) < 1e-6,
      isTooRich: modM(o2, working, column) < entry.depthM - 1e-9,
    };
  });
  const limit = said`${figure('po2Limit', working)}`;
  const deepest = slanted(figure('depthLimit', modM(label, contingency, column)));
  const dots = rungs.some(({ isTooRich }) => isTooRich) ? said` In dots: too rich for this dive.` : said``;
  return {
    entry,
    mix: words(mixSaid(label)),
    number: numberOf(trip, dive),
    cylinder: unmarked(diver.cylinderNo ?? ''),
    day: words(said`${dayOf(wallDate(entry.startMin))}`),
    dive: words(said`dive ${numberOf(trip, dive)}, ${slanted(figure('depthSet', entry.depthM))}`),
    diver: unmarked(diver.name),
    modHeads: modsOf(label).map(({ unit }) => words(said`MOD, ${unit}`)),
    modHead: words(
      said`MOD, ${modsOf(label)
        .map(({ unit }) => unit)
        .join(' / ')}`,
    ),
    rungs,
    read: entry.isAnalysed ? { share: words(said`${bare('oxygen', label)}`), mods: modsOf(label) } : null,
    modAt: words(said`MOD at ${limit}`),
    note: words(
      entry.isAnalysed
        ? said`At ${figure('po2Limit', contingency)} ${deepest}, only to get out of trouble. Read it again after a night.`
        : said`Circle what you read. MOD at ${limit}, rounded down. Any other reading: not before it is planned anew.${dots}`,
    ),
    shortNote: words(
      entry.isAnalysed
        ? said`Read it again after a night.`
        : said`Circle what you read; MOD at ${limit}.${dots}`,
    ),
  };
}

/** The tags of the dives asked for that are made, as they are filled: by start, in the order of the party. */
export function tagsOf(request: DatedRequest, reader: Reader, words: Words): readonly Tag[] {
  const { ledger, diverIds, dates } = request;
  return (
    ledger.divers
      .filter(({ diver }) => diverIds === null || diverIds.includes(diver.id))
      .flatMap(({ entries }) => entries)
      // A loop has no cylinder of one mix to be tagged.
      .filter(({ isMade, loop, startMin }) => isMade && loop === null && dates.includes(wallDate(startMin)))
      .toSorted((a, b) => a.startMin - b.startMin)
      .map((entry) => tagOf(request, entry, reader, words))
  );
}
