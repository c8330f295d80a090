/** What the party holds between two dives, and whether a dive may follow. */
import type { Trip } from '../../document/types';
import { HOURS_BEFORE_FLIGHT } from '../../ledger/flying';
import type { Carry, DiverLedger, Entry, Exposure, Ledger } from '../../ledger/ledger-types';
import { otuTotalAllowed } from '../../oxygen/budgets';
import { cnsAfterInterval } from '../../oxygen/cns';
import { DAY_MIN, dayPeak, type ClockPiece } from '../../oxygen/cns-day';
import { surroundingsOf } from '../../profile';
import type { TableState } from '../../tables/procedure';
import type { Lanes } from '../../tissues/affine-map';
import { AIR_N2, COMPARTMENT_COUNT, inspiredBar, RATES_PER_MIN } from '../../tissues/compartments';
import { dayNumber, wallMin, type WallMin } from '../../words/calendar';
import type { FlightNeeds } from './flight-needs';
import type { Clocks, Made } from './filled';
import { keepsOnLoop, scrubbedMin } from './on-loop';
import type { DiveWays, Way } from './ways';

const LANES = COMPARTMENT_COUNT;

/** Limits and figures may differ by this much through rounding alone, as in the cautions. */
const DUST = 1e-9;

/** Excess may pass its bound by this much, bar: what sums of maps and of translations differ by. */
const SAME_EXCESS_BAR = 1e-12;

/** The single-exposure clock is cautioned above this. Source: as in core/cautions/cns-over-80.ts. */
const CNS_MOST = 0.8;

/** Source: as in core/cautions/short-interval.ts. */
export const SHORTEST_INTERVAL_MIN = 60;

/** Source: as in core/cautions/deeper-than-the-one-before.ts. */
const REVERSE_BY_M = 12;
const REVERSE_BEYOND_M = 40;
const SAME_SERIES_MIN = 360;

/** A dive that the rolling 24 h clock may still see, and those before it. */
interface Exposed {
  readonly endMin: WallMin;
  readonly share: number;
  /** In minutes from `zeroMin`. */
  readonly pieces: readonly ClockPiece[];
  readonly zeroMin: WallMin;
  readonly before: Exposed | null;
}

/** What one diver holds; never changed. In each field but `firstDay` less is better, but for a loop’s bail-out. */
export interface Holding {
  readonly surfacedMin: WallMin;
  readonly cnsAtMin: WallMin;
  /** NaN where it is not known. */
  readonly cns: number;
  readonly exposed: Exposed | null;
  readonly before: { readonly depthM: number; readonly day: number } | null;
  /** Dives so far, brought ones included. */
  readonly dives: number;
  readonly otu: number;
  /** The day that allowances of OTU count from. */
  readonly firstDay: number | null;
  /** What the government table has after the last dive; null: nothing, or it is not asked of the dives ahead. */
  readonly table: TableState | null;
  /** How long the scrubber in the diver's loop was used since it was packed, minutes. */
  readonly scrubberMin: number;
}

/** What the party holds between two dives. */
export interface State {
  /** By place in the party and compartment, as the diver enters at the planned start of the dive that comes next, bar. */
  readonly excess: Lanes;
  readonly holdings: readonly Holding[];
  /** Start of the last dive that is made: dives keep their order. */
  readonly lastStartMin: WallMin;
}

function exposedBy(
  { endMin, pieces, dailyShare }: NonNullable<Entry['exposure']>,
  before: Exposed | null,
): Exposed {
  // Where a clock is not known its share is not: NaN is past nothing, as no caution can tell.
  return { endMin, share: dailyShare ?? NaN, pieces: pieces ?? [], zeroMin: 0, before };
}

function holdingAfter({ earlier, start, entries }: DiverLedger): Holding {
  const made = [...earlier, ...entries].filter((entry) => entry.isMade);
  const last = made.at(-1);
  const carry = entries.at(-1)?.after ?? start;
  const [first] = made;
  return {
    surfacedMin: carry.exposures.at(-1)?.endMin ?? -Infinity,
    cnsAtMin: carry.atMin,
    cns: carry.cns ?? NaN,
    exposed: carry.exposures.reduce<Exposed | null>((before, each) => exposedBy(each, before), null),
    before: last === undefined ? null : { depthM: last.depthM, day: dayNumber(last.startMin) },
    dives: earlier.length + entries.filter((entry) => entry.isMade).length,
    otu: carry.doses.reduce((sum, dose) => sum + dose.otu, 0),
    firstDay: first === undefined ? null : dayNumber(first.startMin),
    table: carry.table,
    scrubberMin: carry.scrubberMin,
  };
}

/** The day of the last dive done, where the dives done take more OTU than it allows: it is not told twice. */
function dayPastOtu({ entries, days }: DiverLedger): number | null {
  const last = entries.findLast((entry) => entry.isMade);
  const line = days.at(-1);
  if (
    last === undefined ||
    line === undefined ||
    dayNumber(entries.at(-1)!.startMin) !== dayNumber(last.startMin)
  )
    return null;
  return last.otu.day > line.otuAllowed + DUST ? dayNumber(last.startMin) : null;
}

/** What is the same in every plan: the trip, and the dives done. */
export class Rules {
  private readonly flightMin: number;
  private readonly surfaceHours: readonly ((dives: number) => number)[];
  private readonly dayPastOtu: readonly (number | null)[];
  /** What tensions rest at where the party stays, bar: excess is above it. */
  private readonly airBar: number;
  /** Minutes that each diver enters after a dive’s start, by place in the party. */
  readonly afterMin: readonly number[];

  /**
   * @param done the ledger of the trip with the dives done alone
   * @param views what the flight asks by the table and the model; null: it is not asked
   */
  constructor(
    readonly trip: Trip,
    private readonly done: Ledger,
    private readonly views: FlightNeeds | null = null,
  ) {
    this.airBar = AIR_N2 * inspiredBar(surroundingsOf(trip).column.surfaceBar);
    this.flightMin = trip.flight === null ? Infinity : wallMin(trip.flight.at);
    const { oneNoStopDive, severalDivesOrDays, requiredStops } = HOURS_BEFORE_FLIGHT;
    this.surfaceHours = done.divers.map(({ earlier, entries }) => {
      const dived = [...earlier, ...entries.filter((entry) => entry.isMade)];
      // A dive brought along whose mix is not known is read as one with stops.
      const isLong = dived.some((entry) => entry.isPastLimit || !entry.isMade);
      return (dives) => (isLong ? requiredStops : dives > 1 ? severalDivesOrDays : oneNoStopDive);
    });
    this.dayPastOtu = done.divers.map(dayPastOtu);
    this.afterMin = trip.party.map(({ group }) => group?.afterMin ?? 0);
  }

  /** When a diver enters for a dive that starts then: with their group. */
  entersMin(place: number, startMin: WallMin): WallMin {
    return startMin + this.afterMin[place]!;
  }

  /** Whether the flight leaves too soon after a dive of a diver, even if it were the next after those done. */
  isFlightTooSoonAfter(place: number, surfacesMin: WallMin): boolean {
    const { earlier, entries } = this.done.divers[place]!;
    const dives = earlier.length + entries.filter((entry) => entry.isMade).length;
    return surfacesMin + this.surfaceHours[place]!(dives + 1) * 60 > this.flightMin;
  }

  /** What the dives ahead begin from. @param firstStartMin planned start of the first of them */
  start(firstStartMin: WallMin): State {
    const { airBar } = this;
    const excess = this.done.divers.flatMap(({ start, entries }, place) => {
      const { atMin, tensions } = entries.at(-1)?.after ?? start;
      const sinceMin = this.entersMin(place, firstStartMin) - atMin;
      const left = (i: number) => (sinceMin === Infinity ? 1 : Math.exp(-RATES_PER_MIN[i]! * sinceMin));
      return tensions.map((tension, i) => (tension - airBar) * left(i));
    });
    const lastStartMin = wallMinOfLast(this.done.trip);
    return { excess, holdings: this.done.divers.map(holdingAfter), lastStartMin };
  }

  /** Whether a diver may not make a dive after what they hold: every rule in which a dive before has a part. */
  forbids(state: State, place: number, dive: DiveWays, made: Made, later: number, isKept: boolean): boolean {
    const { filled, highest } = made;
    const held = state.holdings[place]!;
    const startMin = this.entersMin(place, dive.startAfter(later));
    const day = dayNumber(startMin);
    const intervalMin = startMin - held.surfacedMin;
    if (intervalMin < SHORTEST_INTERVAL_MIN - DUST) return true;
    const shift = dive.shift[later]!;
    const from = place * LANES;
    for (let i = 0; i < LANES; i += 1) {
      if (state.excess[from + i]! > highest[i]! * shift[i]! + SAME_EXCESS_BAR) return true;
    }
    const cns = restedCns(held, startMin);
    if (cns + filled.cns > CNS_MOST + DUST) return true;
    if (isTooDeepAfter(held, filled.depthM, day, intervalMin)) return true;
    const dayOfTrip = day - (held.firstDay ?? day) + 1;
    const otu = held.otu + filled.otu;
    if (day !== this.dayPastOtu[place] && otu > otuTotalAllowed(Math.max(1, dayOfTrip)) + DUST) return true;
    const hours = this.surfaceHours[place]!(held.dives + 1);
    if (startMin + filled.runMin + hours * 60 > this.flightMin) return true;
    if (this.views?.forbids(place, state, dive, made, later, startMin) === true) return true;
    if (isDayOver(held.exposed, filled, startMin)) return true;
    const { longer } = filled;
    // A clock that is not known leaves no room that anybody could tell.
    if (longer !== null && !isKept && !(cns + longer.cns <= 1 + DUST && keepsDay(held, longer, startMin)))
      return true;
    if (made.loop === null) return false;
    const tensions = shift.map((shifted, i) => this.airBar + state.excess[from + i]! / shifted);
    return !keepsOnLoop(made.loop, carryAt(held, startMin, tensions, cns));
  }

  /** After a dive, or after leaving it out. @param made null: nobody @param decay from its planned start to the next */
  after(
    state: State,
    dive: DiveWays,
    way: Way | null,
    later: number,
    leftOut: readonly number[],
    decay: Lanes,
  ): State {
    const excess: number[] = [];
    const plannedMin = dive.startAfter(later);
    const shift = dive.shift[later]!;
    const holdings = state.holdings.map((held, place): Holding => {
      const made = way === null || leftOut.includes(place) ? null : way.made[place]!;
      const from = place * LANES;
      for (let i = 0; i < LANES; i += 1) {
        const gain = made === null ? 0 : made.filled.gain[i]! * shift[i]!;
        excess.push(decay[i]! * (state.excess[from + i]! + gain));
      }
      if (made === null) return held;
      const { filled } = made;
      const startMin = this.entersMin(place, plannedMin);
      const day = dayNumber(startMin);
      const endMin = startMin + filled.runMin;
      return {
        surfacedMin: endMin,
        cnsAtMin: endMin,
        cns: restedCns(held, startMin) + filled.cns,
        exposed: {
          endMin,
          share: filled.dayShare,
          pieces: filled.pieces,
          zeroMin: startMin,
          before: held.exposed,
        },
        before: { depthM: filled.depthM, day },
        dives: held.dives + 1,
        otu: held.otu + filled.otu,
        firstDay: held.firstDay ?? day,
        table: this.views === null ? null : this.views.tableStep(held, filled, startMin),
        scrubberMin: made.loop === null ? held.scrubberMin : scrubbedMin(made.loop, held.scrubberMin),
      };
    });
    return { excess, holdings, lastStartMin: way === null ? state.lastStartMin : plannedMin };
  }
}

/** What a diver holds at the start of a dive, as the ledger carries it into one on a loop. */
function carryAt(held: Holding, atMin: WallMin, tensions: Lanes, cns: number): Carry {
  const exposures: Exposure[] = [];
  for (let each = held.exposed; each !== null && each.endMin > atMin - DAY_MIN; each = each.before) {
    const { zeroMin, endMin, share, pieces } = each;
    // Where a clock is not known its share is not.
    const known = Number.isNaN(share) ? null : moved(pieces, zeroMin);
    exposures.unshift({ startMin: zeroMin, endMin, pieces: known, dailyShare: known && share });
  }
  const { scrubberMin } = held;
  return {
    atMin,
    tensions,
    cns: Number.isNaN(cns) ? null : cns,
    doses: [],
    exposures,
    table: null,
    scrubberMin,
  };
}

function wallMinOfLast({ dives }: Trip): WallMin {
  const last = dives.at(-1);
  return last === undefined ? -Infinity : wallMin(last.startsAt);
}

function restedCns({ cns, cnsAtMin }: Holding, startMin: WallMin): number {
  return cns === 0 ? 0 : cnsAfterInterval(cns, Math.max(0, startMin - cnsAtMin));
}

function isTooDeepAfter({ before }: Holding, depthM: number, day: number, intervalMin: number): boolean {
  if (before === null || depthM <= before.depthM) return false;
  if (intervalMin >= SAME_SERIES_MIN && before.day !== day) return false;
  return depthM - before.depthM > REVERSE_BY_M + DUST || depthM > REVERSE_BEYOND_M + DUST;
}

function moved(pieces: readonly ClockPiece[], byMin: number): readonly ClockPiece[] {
  return pieces.map((piece) => ({ ...piece, fromMin: piece.fromMin + byMin, toMin: piece.toMin + byMin }));
}

/** Highest reading of the rolling clock during a dive; NaN where it is not known. */
function dayReading(last: Exposed | null, clocks: Clocks, startMin: WallMin): number {
  const recent: Exposed[] = [];
  let share = clocks.dayShare;
  for (let each = last; each !== null && each.endMin > startMin - DAY_MIN; each = each.before) {
    recent.push(each);
    share += each.share;
  }
  // All of it at once is more than any window holds: that settles most dives.
  if (!(share > 1 + DUST)) return share;
  const earlier = recent.toReversed().flatMap(({ pieces, zeroMin }) => moved(pieces, zeroMin));
  return dayPeak(earlier, moved(clocks.pieces, startMin), startMin);
}

function isDayOver(last: Exposed | null, clocks: Clocks, startMin: WallMin): boolean {
  return dayReading(last, clocks, startMin) > 1 + DUST;
}

function keepsDay({ exposed }: Holding, clocks: Clocks, startMin: WallMin): boolean {
  return dayReading(exposed, clocks, startMin) <= 1 + DUST;
}
