/** What stands on the tag of a filled cylinder, in words and rounded for good. */
import type { Mix } from '../../document/types';
import { modM } from '../../gas';
import { breathedSaid } from '../../ledger/breathed-said';
import type { Entry } from '../../ledger/ledger-types';
import { mixO2 } from '../../ledger/mix-choice';
import { loopFills, type LoopCylinder, type LoopUse } from '../../mixes/loop-cylinders';
import { surroundingsAt } from '../../document/waters';
import { wallDate } from '../../words/calendar';
import { printed } from '../../words/quantity';
import { shown, type Reader, type Words } from '../../words/reader';
import { bare, dayOf, figure, said, type Said } from '../../words/said';
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

/** A depth that a gas is good for, in each system of units. */
type Mods = readonly { readonly value: string; readonly unit: string }[];

export interface Tag {
  readonly entry: Entry;
  readonly mix: string;
  /** Of the dive, in its day. */
  readonly number: number;
  /** Number on the cylinder; empty to be written. */
  readonly cylinder: string;
  readonly day: string;
  /** "dive 1, 34 m", or what of a loop it is: "diluent, dive 1". */
  readonly dive: string;
  readonly diver: string;
  /** What is in it, and of a loop what for: a row of the log. */
  readonly gas: string;
  /** "MOD, m", one a system of units. */
  readonly modHeads: readonly string[];
  /** All in one. */
  readonly modHead: string;
  /** Empty where nothing is to be circled. */
  readonly rungs: readonly Rung[];
  /** Read off a distance before it is analysed; null: the ladder is enough. */
  readonly headMods: Mods | null;
  /** In place of the ladder: what was read, or what the oxygen is for, and the depth it is good for. */
  readonly large: {
    readonly caption: string;
    readonly text: string;
    readonly isShare: boolean;
    readonly mods: Mods;
  } | null;
  readonly isAnalysed: boolean;
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

/** What a cylinder that is read off a ladder holds, and how deep it has to be good for. */
interface Filled {
  readonly label: number;
  readonly isAnalysed: boolean;
  /** null: as deep as its MOD, whatever the dive. */
  readonly deepestM: number | null;
}

type OfDive = Pick<Tag, 'entry' | 'number' | 'day' | 'diver'>;

function ofDive({ ledger }: DatedRequest, entry: Entry, words: Words): OfDive {
  return {
    entry,
    number: numberOf(ledger.trip, entry.dive),
    day: words(said`${dayOf(wallDate(entry.startMin))}`),
    diver: unmarked(entry.diver.name),
  };
}

function modsAt({ ledger }: DatedRequest, entry: Entry, o2: number, po2: number, reader: Reader): Mods {
  const { column } = surroundingsAt(ledger.trip, entry.dive);
  return shown(figure('depthLimit', modM(o2, po2, column)), reader);
}

/** All of a tag that hangs on what is in the cylinder. */
function readingOf(
  request: DatedRequest,
  entry: Entry,
  { label, isAnalysed, deepestM }: Filled,
  reader: Reader,
  words: Words,
): Omit<Tag, keyof OfDive | 'cylinder' | 'dive' | 'gas'> {
  const { column } = surroundingsAt(request.ledger.trip, entry.dive);
  const { working, contingency } = entry.diver.po2;
  const modsOf = (o2: number) => modsAt(request, entry, o2, working, reader);
  const rungs = sharesAround(printed(label, 'oxygen', 'metric')).map((percent): Rung => {
    const o2 = percent / 100;
    return {
      share: words(said`${bare('oxygen', o2)}`),
      mods: modsOf(o2).map(({ value }) => value),
      isLabel: Math.abs(o2 - label) < 1e-6,
      isTooRich: deepestM !== null && modM(o2, working, column) < deepestM - 1e-9,
    };
  });
  const limit = said`${figure('po2Limit', working)}`;
  const deepest = slanted(figure('depthLimit', modM(label, contingency, column)));
  const dots = rungs.some(({ isTooRich }) => isTooRich) ? said` In dots: too rich for this dive.` : said``;
  const mods = modsOf(label);
  const units = mods.map(({ unit }) => unit);
  return {
    mix: words(mixSaid(label)),
    modHeads: units.map((unit) => words(said`MOD, ${unit}`)),
    modHead: words(said`MOD, ${units.join(' / ')}`),
    rungs,
    headMods: null,
    large: isAnalysed
      ? { caption: words(said`analysed`), text: words(said`${bare('oxygen', label)}`), isShare: true, mods }
      : null,
    isAnalysed,
    modAt: words(said`MOD at ${limit}`),
    note: words(
      isAnalysed
        ? said`At ${figure('po2Limit', contingency)} ${deepest}, only to get out of trouble. Read it again after a night.`
        : said`Circle what you read. MOD at ${limit}, rounded down. Any other reading: not before it is planned again.${dots}`,
    ),
    shortNote: words(
      isAnalysed ? said`Read it again after a night.` : said`Circle what you read; MOD at ${limit}.${dots}`,
    ),
  };
}

/** The tag of what a diver breathes on open circuit. */
function ownTag(request: DatedRequest, entry: Entry, reader: Reader, words: Words): Tag {
  const { dive, diver, isAnalysed, depthM } = entry;
  const filled = { label: entry.o2!, isAnalysed, deepestM: depthM };
  return {
    ...readingOf(request, entry, filled, reader, words),
    ...ofDive(request, entry, words),
    cylinder: unmarked(diver.cylinderNo ?? ''),
    dive: words(said`dive ${numberOf(request.ledger.trip, dive)}, ${slanted(figure('depthSet', depthM))}`),
    gas: words(breathedSaid(entry)),
  };
}

/** Of the oxygen that a loop adds: nobody plans to breathe it as it is, so nothing is chosen by what is read. */
function oxygenTag(request: DatedRequest, entry: Entry, reader: Reader, words: Words): Tag {
  const { contingency } = entry.diver.po2;
  const mods = modsAt(request, entry, 1, contingency, reader);
  const about = ofDive(request, entry, words);
  return {
    ...about,
    mix: words(said`OXYGEN`),
    cylinder: '',
    dive: words(said`dive ${about.number}`),
    gas: words(said`oxygen of the loop`),
    modHeads: [],
    modHead: '',
    rungs: [],
    headMods: null,
    large: { caption: words(said`for`), text: words(said`the loop only`), isShare: false, mods },
    isAnalysed: false,
    modAt: words(said`MOD at ${figure('po2Limit', contingency)}`),
    note: words(
      said`Oxygen that the loop adds: on open circuit it is not breathed below that MOD. Analyse it and write down what you read, as of any cylinder.`,
    ),
    shortNote: words(said`On open circuit: never below that.`),
  };
}

const USES: Readonly<Record<Exclude<LoopUse, 'oxygen'>, Said>> = {
  diluent: said`diluent`,
  'bail-out': said`bail-out`,
};

/** As deep as a cylinder of a loop has to be good for: bail-out stays for all its dives, and below its other mixes the leanest is breathed. */
function deepestOf({ use, mix }: LoopCylinder, entry: Entry, { made, along }: OnLoops): number | null {
  if (use === 'diluent') return entry.depthM;
  if (along.some((other) => mixO2(other) < mixO2(mix))) return null;
  return Math.max(...made.map(({ depthM }) => depthM));
}

/** Of the dives that bail-out stays for, the one whose water leaves it the least MOD. */
function strictestOf({ ledger: { trip } }: DatedRequest, o2: number, { made }: OnLoops): Entry {
  const modOf = ({ dive, diver }: Entry) => modM(o2, diver.po2.working, surroundingsAt(trip, dive).column);
  return made.reduce((least, entry) => (modOf(entry) < modOf(least) ? entry : least));
}

/** What a diver makes on a loop. */
interface OnLoops {
  readonly made: readonly Entry[];
  /** The mixes of its bail-out. */
  readonly along: readonly Mix[];
}

/** The tag of a cylinder of a loop. */
function loopTag(
  request: DatedRequest,
  entry: Entry,
  filled: LoopCylinder,
  loops: OnLoops,
  reader: Reader,
  words: Words,
): Tag {
  const { use, mix } = filled;
  if (use === 'oxygen') return oxygenTag(request, entry, reader, words);
  const label = mixO2(mix);
  const isAnalysed = mix.analysedO2 !== undefined;
  const isBailOut = use === 'bail-out';
  const at = isBailOut ? strictestOf(request, label, loops) : entry;
  const deepestM = deepestOf(filled, entry, loops);
  const about = ofDive(request, entry, words);
  return {
    ...readingOf(request, at, { label, isAnalysed, deepestM }, reader, words),
    ...about,
    // It is taken in hand at depth, and by others too.
    headMods: isBailOut && !isAnalysed ? modsAt(request, at, label, at.diver.po2.working, reader) : null,
    cylinder: '',
    dive: words(isBailOut ? said`${USES[use]}` : said`${USES[use]}, dive ${about.number}`),
    gas: words(said`${mixSaid(label)} as ${USES[use]}`),
  };
}

/**
 * The tags of the dives asked for that are made, as the cylinders are filled: by start, in the order of the party; of a loop
 * its oxygen and diluent for each dive, and its bail-out for the first.
 */
export function tagsOf(request: DatedRequest, reader: Reader, words: Words): readonly Tag[] {
  const { ledger, diverIds, dates } = request;
  return ledger.divers
    .filter(({ diver }) => diverIds === null || diverIds.includes(diver.id))
    .flatMap(({ entries }) => {
      const loops = loopFills(ledger.trip, entries);
      const all = [...loops.values()].flat();
      const onLoops: OnLoops = {
        made: [...loops.keys()],
        along: all.flatMap(({ use, mix }) => (use === 'bail-out' ? mix : [])),
      };
      return entries
        .filter(({ isMade, startMin }) => isMade && dates.includes(wallDate(startMin)))
        .map((entry) => {
          const filled = loops.get(entry);
          const tags = filled?.map((each) => loopTag(request, entry, each, onLoops, reader, words)) ?? [
            ownTag(request, entry, reader, words),
          ];
          return { startMin: entry.startMin, tags };
        });
    })
    .toSorted((a, b) => a.startMin - b.startMin)
    .flatMap(({ tags }) => tags);
}
