import type { Id } from '../document/types';
import { mixO2 } from '../ledger/mix-choice';
import type { GasLaw } from '../supply';
import type { FillsMade, OxygenBottle } from './blending';
import type { CompareCell, CompareRow } from './compare';
import type { FillLine, FillMethod, FillPlan } from './fills';
import { isLoopOxygen } from './loop-cylinders';
import { fileWords } from '../words/reader';
import { whyNotSaid } from './richest';
import type { RoomLimit } from '../ledger/ledger-types';
import type { StockAnswer } from './stock';

/** A cell as it stands in the document; figures that do not exist are null. */
export interface CompareCellDocument {
  readonly o2: number;
  readonly mixId: Id;
  readonly allowed: boolean;
  readonly reason: string | null;
  readonly modM: number;
  /** null also where there is no end to it: then `aloneUnlimited`, `inTripUnlimited`. */
  readonly noStopAloneMin: number | null;
  readonly aloneUnlimited: boolean;
  readonly noStopInTripMin: number | null;
  readonly inTripUnlimited: boolean;
  /** The depth that the time in the trip is for: of the dive, at its deepest level, and not of the site. */
  readonly inTripDepthM: number | null;
  readonly gainAloneMin: number | null;
  readonly gainInTripMin: number | null;
  readonly cns: number | null;
  readonly otu: number | null;
  readonly cost: number;
  readonly usedOn: readonly Id[];
}

/** A list as it stands in the document. */
export interface StockListDocument {
  readonly o2: readonly number[];
  readonly divesWithin: number;
  /**
   * null where a dive is past a limit that no shorter stay would keep; and with `roomUnlimited` where nothing limits
   * any dive that is made.
   */
  readonly smallestRoomMin: number | null;
  readonly roomUnlimited: boolean;
  /** The dive that has it and the limit it is to; null where nothing limits a dive. */
  readonly smallestRoomAt: { readonly diveId: Id; readonly limit: RoomLimit } | null;
  /** Of the median open dive; null as `smallestRoomMin`, here with `nitrogenUnlimited`. */
  readonly nitrogenRoomMin: number | null;
  readonly nitrogenUnlimited: boolean;
  readonly oxygenPeak: number | null;
  /** In `currency`. */
  readonly cost: number;
  readonly fills: number;
  readonly mixes: number;
  /** Dives outside a limit for somebody. */
  readonly outside: readonly Id[];
  readonly best: boolean;
  /** Shares of the list, fixed ones, that no dive is given. */
  readonly unused: readonly number[];
}

/** Fills as they stand in the document: gas in litres at 1 bar, pressures as gauges show them. */
export interface FillsDocument {
  readonly method: FillMethod;
  readonly law: GasLaw;
  readonly backBar: number;
  /** Oxygen of what is left in the cylinders; null: the mix they get again. */
  readonly leftO2: number | null;
  /** The mix is null where it is the oxygen that loops add. */
  readonly lines: readonly (Omit<FillLine, 'mix'> & { readonly mixId: Id | null; readonly o2: number })[];
  readonly total: FillPlan['total'];
  /** Of the oxygen in all, what goes into loops' own cylinders, for which no bottle is counted. */
  readonly loopOxygenL: number;
  /** Of filling by partial pressure: the gauge after the oxygen, null where it cannot be done this way. */
  readonly steps: readonly {
    readonly mixId: Id;
    readonly o2: number;
    readonly waterL: number;
    readonly startBar: number;
    readonly fillBar: number;
    readonly fills: number;
    /** It is the diluent of a loop, topped up from what a dive leaves. */
    readonly diluent: boolean;
    readonly idealBar: number | null;
    readonly realBar: number | null;
  }[];
  /** Null where a bottle has too little pressure. */
  readonly bottles: number | null;
  readonly bottle: OxygenBottle & { readonly downToBar: number; readonly givesL: number };
}

/** What `mixes --json` prints, version 1. */
export interface MixesDocument {
  readonly format: 'carryover/mixes';
  readonly version: 1;
  readonly title: string;
  /** What costs are in; null where the trip does not say. */
  readonly currency: string | null;
  readonly compare: readonly { readonly siteId: Id; readonly cells: readonly CompareCellDocument[] }[];
  readonly stock: readonly StockListDocument[];
  /** Of the trip as it stands; null where they cannot be told. */
  readonly fills: FillsDocument | null;
  readonly searched: number;
  readonly total: number;
  /** Lists left out because a mix of theirs would fill no dive. */
  readonly withUnused: number;
  /** Of the others, lists left out by price or number of fills. */
  readonly overLimit: number;
  /** Dives that no share suits for one of their divers. */
  readonly unreached: readonly Id[];
}

function cellDocument(cell: CompareCell): CompareCellDocument {
  return {
    o2: cell.o2,
    mixId: cell.mix.id,
    allowed: cell.allowed,
    reason: cell.whyNot && fileWords(whyNotSaid(cell.whyNot)),
    modM: cell.modM,
    noStopAloneMin: cell.alone?.min ?? null,
    aloneUnlimited: cell.alone?.unlimited ?? false,
    noStopInTripMin: cell.inTrip?.min ?? null,
    inTripUnlimited: cell.inTrip?.unlimited ?? false,
    inTripDepthM: cell.inTrip?.depthM ?? null,
    gainAloneMin: cell.aloneGainMin,
    gainInTripMin: cell.inTripGainMin,
    cns: cell.cns,
    otu: cell.otu,
    cost: cell.cost,
    usedOn: cell.usedOn,
  };
}

function fillsDocument({ request, bottle, plan, steps, bottles }: FillsMade): FillsDocument {
  return {
    method: request.method,
    law: request.law,
    backBar: request.startBar,
    leftO2: request.startO2,
    lines: plan.lines.map(({ mix, ...line }) => ({
      mixId: isLoopOxygen(mix) ? null : mix.id,
      o2: mixO2(mix),
      ...line,
    })),
    total: plan.total,
    loopOxygenL: plan.loopOxygenL,
    steps: steps.map(({ mix, waterL, startBar, fillBar, fills, by, isDiluent }) => ({
      mixId: mix.id,
      o2: mixO2(mix),
      waterL,
      startBar,
      fillBar,
      fills,
      diluent: isDiluent,
      idealBar: by.ideal?.afterOxygenBar ?? null,
      realBar: by.real?.afterOxygenBar ?? null,
    })),
    bottles: bottles.bottles,
    bottle: { ...bottle, downToBar: bottles.downToBar, givesL: bottles.eachL },
  };
}

/**
 * The document of the command `mixes`, fractions and minutes as computed, nothing rounded.
 * @param rows from `compareSites` @param answer from `searchStock`; null where nothing was searched @param fills of the trip as it stands
 * Source: format carryover/mixes of this project, version 1.
 */
export function mixesDocument(
  { title, currency = null }: { readonly title: string; readonly currency?: string | null },
  rows: readonly CompareRow[],
  answer: StockAnswer | null,
  fills: FillsMade | null,
): MixesDocument {
  return {
    format: 'carryover/mixes',
    version: 1,
    title,
    currency,
    compare: rows.map(({ site, cells }) => ({ siteId: site.id, cells: cells.map(cellDocument) })),
    stock: (answer?.lists ?? []).map((list) => ({
      o2: list.percents.map((percent) => percent / 100),
      divesWithin: list.divesWithin,
      smallestRoomMin: list.smallestRoomMin === -Infinity ? null : list.smallestRoomMin,
      roomUnlimited: list.smallestRoomMin === null,
      smallestRoomAt: list.smallestAt,
      nitrogenRoomMin: list.nitrogenRoomMin === -Infinity ? null : list.nitrogenRoomMin,
      nitrogenUnlimited: list.nitrogenRoomMin === null,
      oxygenPeak: list.oxygenPeak,
      cost: list.cost,
      fills: list.fills,
      mixes: list.mixes,
      outside: list.outsideIds,
      best: list.isBest,
      unused: list.unusedPercents.map((percent) => percent / 100),
    })),
    fills: fills && fillsDocument(fills),
    searched: answer?.searched ?? 0,
    total: answer?.total ?? 0,
    withUnused: answer?.withUnused ?? 0,
    overLimit: answer?.overLimit ?? 0,
    unreached: answer?.unreachedDiveIds ?? [],
  };
}
