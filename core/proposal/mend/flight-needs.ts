/**
 * What a flight asks of a plan by the government table and by the model, dive by dive: as much of it as no dive behind
 * takes back. The whole is judged by the ledger, plan by plan.
 * Source: DEVELOPERS, "How mending searches"; views as in core/ledger/flight-views.ts.
 */
import { toleratedTensions } from '../../ascent/tolerated';
import { loopOn } from '../../document/loops';
import type { Id, Trip } from '../../document/types';
import { waterAt } from '../../document/waters';
import { cabinAltitudeM } from '../../ledger/flight-views';
import { TABLE_UP_TO_ALTITUDE_M } from '../../ledger/second-opinion';
import type { Ledger } from '../../ledger/ledger-types';
import { greatest } from '../../numeric';
import { surroundingsOf } from '../../profile';
import { altitudeWaitMin, tableStep, type TableState } from '../../tables/procedure';
import type { Lanes } from '../../tissues/affine-map';
import { AIR_N2, COMPARTMENT_COUNT, inspiredBar, RATES_PER_MIN } from '../../tissues/compartments';
import { M_PER_FOOT } from '../../units';
import { altitudeBar, type Water } from '../../water';
import { wallMin, type WallMin } from '../../words/calendar';
import type { Holding, State } from './holding';
import type { Filled, Made } from './filled';
import type { DiveWays } from './ways';

/** Excess may pass its bound by this much through rounding alone, bar. */
const SAME_BAR = 1e-9;

/** A climb told in metres misses the head of a column by rounding alone, feet. */
const SAME_FT = 1e-6;

function heightOf({ altitudeM }: Water): number {
  return altitudeM;
}

export class FlightNeeds {
  private readonly flightMin: WallMin;
  private readonly climbFt: number;
  /** By place in the party: the excess at the flight that the model tolerates, bar; null where it is not asked. */
  private readonly tolerated: readonly (Lanes | null)[];
  /** By place in the party: whether the table is asked. */
  private readonly isTableAsked: readonly boolean[];

  /** @param mayMiss divers whose flight is let go @param done the ledger of the trip with the dives done alone */
  constructor(trip: Trip, done: Ledger, mayMiss: ReadonlySet<Id | null>) {
    const { flight, party, water } = trip;
    this.flightMin = flight === null ? Infinity : wallMin(flight.at);
    const cabinM = cabinAltitudeM(trip);
    // The climb is counted from the lowest water of the last day; from the highest it is no longer, whatever is dived.
    const highestM = greatest([water, ...trip.dives.map((dive) => waterAt(trip, dive))].map(heightOf));
    this.climbFt = Math.max(0, cabinM - highestM) / M_PER_FOOT - SAME_FT;
    const air = AIR_N2 * inspiredBar(surroundingsOf(trip).column.surfaceBar);
    const isAsked = party.map(
      ({ id }, place) => !mayMiss.has(id) && done.divers[place]!.earlier.every(({ isMade }) => isMade),
    );
    const ahead = trip.dives.slice(done.trip.dives.length);
    this.tolerated = party.map((diver, place) => {
      const { gradient } = diver;
      // Shallow on a loop a dive behind may give off what is too much.
      if (ahead.some((dive) => loopOn(dive, diver) !== null)) return null;
      const limits = toleratedTensions(altitudeBar(cabinM), gradient.high).map((limit) => limit - air);
      // Where a compartment at rest stands above its limit the model has no moment, and nothing to ask.
      return isAsked[place]! && limits.every((limit) => limit > 0) ? limits : null;
    });
    this.isTableAsked = isAsked.map((asked) => asked && highestM <= TABLE_UP_TO_ALTITUDE_M);
  }

  /** What the table has after a dive. */
  tableStep(held: Holding, { depthFsw, bottomMin }: Filled, startMin: WallMin): TableState {
    const intervalMin = held.table === null ? null : startMin - held.surfacedMin;
    return tableStep({ depthFsw, bottomMin, intervalMin }, held.table).state;
  }

  /** Whether the flight leaves too soon after a dive by either view, whatever is dived behind it. */
  forbids(
    place: number,
    state: State,
    dive: DiveWays,
    { filled }: Made,
    later: number,
    startMin: WallMin,
  ): boolean {
    const held = state.holdings[place]!;
    if (this.isTableAsked[place]!) {
      const waitMin = altitudeWaitMin(this.tableStep(held, filled, startMin).group, this.climbFt);
      if (startMin + filled.runMin + waitMin > this.flightMin) return true;
    }
    const tolerated = this.tolerated[place]!;
    if (tolerated === null) return false;
    const shift = dive.shift[later]!;
    // Excess is told as at the planned start of the dive, of whoever enters with their group.
    const leftMin = this.flightMin - (startMin - (dive.startAfter(later) - dive.startMin));
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
      const excess = state.excess[place * COMPARTMENT_COUNT + i]! + filled.gain[i]! * shift[i]!;
      if (excess * Math.exp(-RATES_PER_MIN[i]! * leftMin) > tolerated[i]! + SAME_BAR) return true;
    }
    return false;
  }
}
