import type { LoopBreathing } from '../breathing';
import type { ClockPiece } from '../oxygen/cns-day';
import type { Leg, Stop } from '../profile';
import type { TableReading, TableState } from '../tables/procedure';
import type { Lanes } from '../tissues/affine-map';
import type { WallMin } from '../words/calendar';
import type { Dive, Diver, Mix, Trip } from '../document/types';
import type { ClimbViews } from './climb-views';
import type { FlightViews } from './flight-views';

/** What a diver holds at a moment. */
export interface Carry {
  readonly atMin: WallMin;
  /** Nitrogen tension of the 16 compartments, bar. */
  readonly tensions: Lanes;
  /** Single-exposure CNS clock as a fraction; null once an exposure above 1.6 bar made it unknowable. */
  readonly cns: number | null;
  /** Oxygen already taken on this mission, by day number since 1970-01-01, and the exposures of its last day. */
  readonly doses: readonly DayDose[];
  readonly exposures: readonly Exposure[];
  /** What the government table counts on from; null before the first dive. */
  readonly table: TableState | null;
  /** How long the scrubber in the diver's loop was used since it was packed, minutes. */
  readonly scrubberMin: number;
}

/** What a cylinder of a loop gives on a dive. */
export interface LoopGas {
  /** Litres at 1 bar. */
  readonly usedL: number;
  /** Gauge pressure left at the surface; null where it does not last. */
  readonly leftBar: number | null;
}

/** A bail-out mix at the worst moment of a dive. */
export interface BailOutMix {
  readonly mix: Mix;
  readonly o2: number;
  /** At the diver's working PO2. */
  readonly modM: number;
  /** Litres at 1 bar that the way up takes of it, and that its cylinders hold above their reserve. */
  readonly neededL: number;
  readonly holdsL: number;
}

/** The way up without the loop from the moment that takes most of what is along. */
export interface BailOutWay {
  /** Minutes since leaving the surface. */
  readonly atMin: number;
  readonly fromM: number;
  /** Those that it costs, else the safety stop; deepest first. */
  readonly stops: readonly Stop[];
  /** Minutes from leaving the loop to the surface. */
  readonly runtimeMin: number;
  /** The richest first. */
  readonly mixes: readonly BailOutMix[];
  /** Litres at 1 bar that are left of the mix of which least is; negative where it does not last. */
  readonly spareL: number;
}

/** What a dive on a breathing loop comes to beside the figures that every dive has. */
export interface LoopFigures {
  readonly breathing: LoopBreathing;
  readonly diluent: Mix;
  /** Where the diluent alone reaches the diver's working PO2. */
  readonly diluentModM: number;
  /** Where the leanest bail-out does. */
  readonly bailOutModM: number;
  readonly oxygen: LoopGas;
  readonly diluentGas: LoopGas;
  /** Minutes that the scrubber was used since it was packed, this dive included, and that are left; negative past it. */
  readonly scrubber: { readonly usedMin: number; readonly leftMin: number };
  /** null where no ascent on bail-out was found. */
  readonly bailOut: BailOutWay | null;
}

/** Whole-body oxygen doses of one day. */
export interface DayDose {
  readonly day: number;
  readonly otu: number;
  readonly esot: number;
}

/** One dive as the rolling 24 h clock sees it; `pieces` null where PO2 passed 1.6 bar. */
export interface Exposure {
  readonly startMin: WallMin;
  readonly endMin: WallMin;
  readonly pieces: readonly ClockPiece[] | null;
  /** Share of the daily limit, all pieces together: what the dive takes while all of it is in the window; null as they are. */
  readonly dailyShare: number | null;
}

export type RoomLimit =
  | 'no-stop'
  | 'mod'
  | 'po2'
  | 'cns'
  | 'cns-day'
  | 'gas'
  | 'oxygen'
  | 'scrubber'
  | 'bail-out'
  | 'diver-depth'
  | 'interval';

/** How much is left before a limit is met; negative where one is passed. */
export interface Room {
  /** Minutes longer at the last level before the first limit; null: no limit, or no figure. */
  readonly min: number | null;
  readonly minLimit: RoomLimit | null;
  /** Metres deeper (every level shifted alike) at the same bottom time. */
  readonly m: number | null;
  readonly mLimit: RoomLimit | null;
  /** Minutes sooner; null where the interval does not matter, or none would do. */
  readonly earlierMin: number | null;
  readonly earlierLimit: RoomLimit | null;
}

/** One level of a dive with its own no-stop limit. */
export interface EntryLevel {
  readonly depthM: number;
  /** As planned or dived, the way to it from the level before included. */
  readonly min: number;
  /**
   * How long it may last, counted alike and what came before it being done, so that a direct ascent from it passes
   * nothing; null with `unlimited` where there is no such limit, and on a dive that is not made.
   */
  readonly noStopMin: number | null;
  readonly unlimited: boolean;
}

/** One dive in one diver's ledger, with all that was computed. Figures that do not exist are null. */
export interface Entry {
  readonly dive: Dive;
  /** With the gas rate of the day of the dive. */
  readonly diver: Diver;
  /** What the diver held on surfacing from the dive before, or brought along: where the dive can be reckoned anew. */
  readonly from: Carry;
  /** What the diver holds on surfacing: where the fold goes on. As `from` where the dive is left out. */
  readonly after: Carry;
  /** False where no mix can be used there: the dive is left out, and the ledger goes on as if it were not made. */
  readonly isMade: boolean;
  readonly startMin: WallMin;
  readonly surfacesMin: WallMin;
  /**
   * Surface time since the diver's dive before, earlier dives included; null for a first dive. Negative
   * where required stops of the dive before run into this one: then nothing is given off in between.
   */
  readonly intervalMin: number | null;
  /** As dived where that is known, else as planned. */
  readonly depthM: number;
  readonly bottomMin: number;
  readonly isAsDived: boolean;
  /** It was made with start, depth and time as planned. */
  readonly isAsPlanned: boolean;
  /** Legs in order from the surface to the surface, stops included. */
  readonly legs: readonly Leg[];
  /** Depths of earlier levels from whose end a direct ascent was no longer within the limit. */
  readonly levelsPastLimitM: readonly number[];
  readonly exposure: Exposure | null;
  /** The loop on which it is made; null on open circuit. Then there is no mix, no oxygen fraction and no gas of one. */
  readonly loop: LoopFigures | null;
  readonly mix: Mix | null;
  /** Oxygen fraction the figures rest on: analysed where known. */
  readonly o2: number | null;
  readonly isAnalysed: boolean;
  readonly modM: number | null;
  readonly contingencyModM: number | null;
  /** PO2 at the deepest point. */
  readonly po2Bar: number | null;
  readonly eadM: number | null;
  readonly gasDensityGL: number | null;
  /**
   * Longest bottom time with a direct ascent, the last level lengthened; null with `unlimited` where there is
   * none. Beside a depth stands the limit of the deepest level instead (`deepestLevel`).
   */
  readonly noStopMin: number | null;
  readonly unlimited: boolean;
  /** The levels in the order of the dive, a single one on a square dive: then its limit is `noStopMin`. */
  readonly levels: readonly EntryLevel[];
  /** The bottom time passes the no-stop limit, or an earlier level ended past its own. */
  readonly isPastLimit: boolean;
  /** Required stops, deepest first; empty inside the limit, and null where no ascent on this gas was found. */
  readonly stops: readonly Stop[] | null;
  readonly tensionsBefore: Lanes;
  readonly leading: { readonly compartment: number; readonly fractionOfLimit: number };
  readonly cns: {
    readonly before: number | null;
    readonly after: number | null;
    /** Peak of the rolling 24 h allowance during this dive. */
    readonly day: number | null;
  };
  /** `day` and `trip` count up to and with this dive. */
  readonly otu: { readonly dive: number | null; readonly day: number; readonly trip: number };
  readonly esot: { readonly dive: number | null; readonly day: number };
  readonly gas: {
    /** Litres in the cylinder at the start, at 1 bar. */
    readonly contentL: number | null;
    /** Used when the last level is left, litres at 1 bar. */
    readonly usedAtLeavingL: number | null;
    readonly usedL: number | null;
    /** Gauge pressure left at the surface, as read where that was logged; null where the gas does not last. */
    readonly endBar: number | null;
    readonly isEndRead: boolean;
    /**
     * What the diver breathed on this dive, litres a minute at the surface, by the pressure read at its end; null
     * where none was, or where it is not known how long the diver was how deep.
     */
    readonly breathedLpm: number | null;
    readonly turnBar: number | null;
    readonly minimumBar: number | null;
  };
  /** What the government table says to it, up to the height at which it holds; null of a dive that is not made. */
  readonly table: TableReading | null;
}

/**
 * One calendar day on which a diver dives on the trip. What the day took and allows counts the dives brought to the
 * trip on the same day; `dives` and `bottomMin` are those of the trip.
 */
export interface LedgerDay {
  /** "2027-03-06" */
  readonly date: string;
  readonly dives: number;
  readonly bottomMin: number;
  readonly otu: number;
  readonly otuAllowed: number;
  readonly cnsDayPeak: number | null;
  readonly esot: number;
}

/** All entries of one diver, day by day. */
export interface DiverLedger {
  readonly diver: Diver;
  /** The dives brought to the trip, which count like those of the trip; not made where their mix is not known. */
  readonly earlier: readonly Entry[];
  /** What the diver brings along: earlier dives, or a recent climb to the trip's altitude. */
  readonly start: Carry;
  readonly entries: readonly Entry[];
  readonly days: readonly LedgerDay[];
  /** Days with dives, on the trip or brought to it. */
  readonly divingDays: number;
  /** When flying is clear, three ways; null without dives. */
  readonly flight: FlightViews | null;
  /** Flying is clear from here, by the latest of them; null without dives. */
  readonly flyAfterMin: WallMin | null;
  /** The ways up to a greater height after dives, in order of time, each with the same three views. */
  readonly climbs: readonly ClimbViews[];
  /** Every compartment is back within 1 % of its limit from rest at the trip's own height; null without dives. */
  readonly clearAtMin: WallMin | null;
}

export interface Ledger {
  readonly trip: Trip;
  /** In the order of the party. */
  readonly divers: readonly DiverLedger[];
}
