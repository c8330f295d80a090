/**
 * What one dive of one run does to the tissues of everybody on it. Depth, time and start are the dive's, so this is asked
 * once a run and dive; what the divers breathe comes in afterwards, as a map is linear in the fraction.
 */
import {
  COMPARTMENT_COUNT,
  RATES_PER_MIN,
  TIME_CONSTANTS_MIN,
  WATER_VAPOUR_BAR,
} from '../tissues/compartments';
import type { DiveTable, Step } from './dive-table';
import { CM, SECONDS } from './scatter';
import type { TripTable } from './trip-table';

/** Of this module's own: what is imported is asked of another one at each use where modules are not bundled. */
const N = COMPARTMENT_COUNT;

/** Decay and uptake of the sixteen compartments, as of `AffineMap`, in lists that are written over. */
export interface Lanewise {
  readonly decay: Float64Array;
  readonly uptake: Float64Array;
}

/** New ones. */
export function lanewise(): Lanewise {
  return { decay: new Float64Array(N), uptake: new Float64Array(N) };
}

function copy(from: Lanewise, to: Lanewise): void {
  for (let i = 0; i < N; i += 1) {
    to.decay[i] = from.decay[i]!;
    to.uptake[i] = from.uptake[i]!;
  }
}

/** A dive of a run. */
export class DiveMaps {
  /** To the arrival at the last level, to leaving it, and to the surface. */
  readonly arrive = lanewise();
  readonly leave = lanewise();
  readonly whole = lanewise();
  /** To the end of each earlier level and straight up. */
  readonly levels: Lanewise[] = [];
  /** Straight up from the last level; its decay as a divisor. */
  readonly up = lanewise();
  readonly upInverse = new Float64Array(N);
  /** What it takes for each litre a minute: until leaving the last level, and all. */
  atLeavingBarMin = 0;
  breathedBarMin = 0;
  private readonly nothing = lanewise();
  private readonly rates = Float64Array.from(RATES_PER_MIN);
  private readonly constants = Float64Array.from(TIME_CONSTANTS_MIN);

  constructor(private readonly table: TripTable) {
    this.nothing.decay.fill(1);
  }

  /** Minutes of a leg in a run. @param cm @param seconds drawn */
  minOf({ min, moved, isLast }: Step, cm: number, seconds: number): number {
    const { descentMPerMin, ascentMPerMin } = this.table.around;
    const later = isLast ? seconds / SECONDS : 0;
    if (moved === 'not') return min + later;
    const byMin = cm / CM / (moved === 'ascent' ? ascentMPerMin : descentMPerMin);
    return moved === 'stay' ? min - byMin + later : min + byMin;
  }

  /**
   * Carries a map on over a leg: of its planned length and what the draws add, e^-kt - 1 is put together from three rows.
   * Source: as `carryOn` of core/tissues/leg-map.ts, its exponential from tables.
   */
  private carry(map: Lanewise, step: Step, cm: number, seconds: number, into: Lanewise): void {
    const { down, up, longer, around } = this.table;
    const { moved, slope, isLast, lost: planned } = step;
    const min = this.minOf(step, cm, seconds);
    const startBar = step.fromBar + (step.fromMoves * around.column.barPerM * cm) / CM - WATER_VAPOUR_BAR;
    const deeper = moved === 'ascent' ? up.at : down.at;
    const deeperAt =
      moved === 'ascent'
        ? up.zero + cm * N
        : down.zero + (moved === 'not' ? 0 : moved === 'stay' ? -cm * N : cm * N);
    const later = longer.at;
    const laterAt = longer.zero + (isLast ? seconds * N : 0);
    const { decay, uptake } = map;
    const { decay: madeDecay, uptake: madeUptake } = into;
    const { rates, constants } = this;
    if (slope === 0) {
      for (let i = 0; i < N; i += 1) {
        const p = planned[i]!;
        const a = deeper[deeperAt + i]!;
        const both = p + a + p * a;
        const b = later[laterAt + i]!;
        const lost = both + b + both * b;
        const left = 1 + lost;
        madeUptake[i] = left * uptake[i]! - startBar * lost;
        madeDecay[i] = left * decay[i]!;
      }
      return;
    }
    for (let i = 0; i < N; i += 1) {
      const p = planned[i]!;
      const a = deeper[deeperAt + i]!;
      const lost = p + a + p * a;
      const left = 1 + lost;
      const gone = (rates[i]! * min + lost) * constants[i]!;
      madeUptake[i] = left * uptake[i]! - startBar * lost + slope * gone;
      madeDecay[i] = left * decay[i]!;
    }
  }

  private barMinOf(step: Step, cm: number, seconds: number): number {
    const deeperBar = (this.table.around.column.barPerM * cm) / CM;
    const meanBar = (step.fromBar + step.toBar + deeperBar * (step.fromMoves + step.toMoves)) / 2;
    return meanBar * this.minOf(step, cm, seconds);
  }

  /** Makes the maps of a dive. @param cm by which it is deeper @param seconds by which it is longer */
  make(dive: DiveTable, cm: number, seconds: number): void {
    const { whole, arrive, leave, up } = this;
    const last = dive.steps.length - 1;
    let map = this.nothing;
    let barMin = 0;
    for (let s = 0; s <= last; s += 1) {
      const step = dive.steps[s]!;
      if (s === last) copy(map, arrive);
      this.carry(map, step, cm, seconds, whole);
      map = whole;
      barMin += this.barMinOf(step, cm, seconds);
      if (step.endsLevel !== -1 && s !== last) {
        const level = (this.levels[step.endsLevel] ??= lanewise());
        this.carry(whole, dive.direct[step.endsLevel]!, cm, 0, level);
      }
    }
    copy(whole, leave);
    this.atLeavingBarMin = barMin;
    this.carry(this.nothing, dive.direct[dive.direct.length - 1]!, cm, 0, up);
    for (let i = 0; i < N; i += 1) this.upInverse[i] = 1 / up.decay[i]!;
    barMin += this.barMinOf(dive.ascent, cm, 0);
    const { stop } = dive;
    if (stop === null) {
      for (let i = 0; i < N; i += 1) {
        whole.uptake[i] = up.decay[i]! * whole.uptake[i]! + up.uptake[i]!;
        whole.decay[i] = up.decay[i]! * whole.decay[i]!;
      }
    } else {
      this.carry(whole, dive.ascent, cm, 0, whole);
      for (let i = 0; i < N; i += 1) {
        whole.uptake[i] = stop.decay[i]! * whole.uptake[i]! + stop.uptake[i]!;
        whole.decay[i] = stop.decay[i]! * whole.decay[i]!;
      }
      barMin += stop.bar * stop.min + ((stop.bar + this.table.around.column.surfaceBar) / 2) * stop.lastMin;
    }
    this.breathedBarMin = barMin;
  }
}
