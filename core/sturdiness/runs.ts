/**
 * Runs of a scattered trip: the maps of every dive once for the party, then each diver through them. Nothing is allocated
 * in a run, and no exponential taken but for the clocks and the compartments that come near a limit.
 */
import { atSurface } from '../ledger/at-surface';
import type { Dive } from '../document/types';
import { LAST_LIMIT_BAR } from '../oxygen/limits';
import { CNS_HALF_TIME_MIN } from '../oxygen/cns';
import { DAY_MIN } from '../oxygen/cns-day';
import { ShareSums } from '../oxygen/share-sums';
import { COMPARTMENT_COUNT, RATES_PER_MIN, WATER_VAPOUR_BAR } from '../tissues/compartments';
import {
  asUsed,
  breathing,
  madePastLimit,
  PASSED,
  passedBy,
  passedClocks,
  passedDepths,
  passedGas,
  roomNumber,
  scatteredDive,
  scatteredEntry,
  type DrawnDive,
} from './by-ledger';
import { DiveMaps } from './dive-maps';
import { isOtherShape, type DiveTable } from './dive-table';
import { Counter, normalOf } from './draws';
import { gasLeftL } from './gas-left';
import { CM, SECONDS } from './scatter';
import type { Seeds } from './seeds';
import type { CellTable, TripTable } from './trip-table';

/** Of this module's own: what is imported is asked of another one at each use where modules are not bundled. */
const N = COMPARTMENT_COUNT;

/** Bottom time and limit may differ by this much through rounding, minutes. */
const SAME_MIN = 1e-9;

const LN2_PER_HALF_TIME = Math.LN2 / CNS_HALF_TIME_MIN;

export class Runs {
  /** Of the last run, by cell: minutes of room, limits passed, and what was drawn. */
  readonly room: Float64Array;
  readonly passed: Uint16Array;
  readonly rate: Float64Array;
  readonly o2: Float64Array;
  readonly drawn: readonly DrawnDive[];
  /** Dives of divers past their limit, and divers of runs that were left to the ledger, so far. */
  stopped = 0;
  left = 0;
  private readonly counter = new Counter();
  private readonly maps: DiveMaps;
  private readonly single = new ShareSums('single');
  private readonly daily = new ShareSums('daily');
  /** By cell: when the diver is out, what the stops took longer, and the shares of both clocks, NaN where not asked yet. */
  private readonly outMin: Float64Array;
  private readonly stopsMin: Float64Array;
  private readonly singleShare: Float64Array;
  private readonly dailyShare: Float64Array;
  /** By diver: tensions above rest, the single clock on surfacing, and whether the quick way cannot tell. */
  private readonly excess: Float64Array;
  private readonly cns: Float64Array;
  private readonly isLeft: Uint8Array;
  private readonly interval = new Float64Array(N);
  private readonly rates = Float64Array.from(RATES_PER_MIN);
  /** The dive ahead that the factors of the interval begin at; -1: of nobody else. */
  private intervalFrom = -1;
  private dive: Dive | null = null;
  /** Minutes last asked, and what they leave of the single clock: the same for most of a party. */
  private restedMin = 0;
  private restedShare = 1;

  constructor(private readonly table: TripTable) {
    const { cells, dives, people } = table;
    const perCell = (): Float64Array => new Float64Array(cells.length);
    this.room = perCell();
    this.rate = perCell();
    this.o2 = perCell();
    this.outMin = perCell();
    this.stopsMin = perCell();
    this.singleShare = perCell();
    this.dailyShare = perCell();
    this.passed = new Uint16Array(cells.length);
    this.drawn = dives.map(() => ({ cm: 0, seconds: 0, startMin: 0 }));
    this.excess = new Float64Array(people.length * N);
    this.cns = new Float64Array(people.length);
    this.isLeft = new Uint8Array(people.length);
    this.maps = new DiveMaps(table);
  }

  /** Makes one run. @param run its number @param seeds of each scatter */
  run(run: number, seeds: Seeds): void {
    const { dives, people, cellsOf, cells } = this.table;
    for (let d = 0; d < people.length; d += 1) {
      const { excess, carry, isUnknown } = people[d]!;
      for (let i = 0; i < N; i += 1) this.excess[d * N + i] = excess[i]!;
      this.cns[d] = carry.cns ?? 0;
      this.isLeft[d] = isUnknown ? 1 : 0;
    }
    for (let j = 0; j < dives.length; j += 1) {
      const dive = dives[j]!;
      const drawn = this.drawn[j]!;
      this.draw(run, j, dive, drawn, seeds);
      this.dive = null;
      this.intervalFrom = -1;
      this.maps.make(dive, drawn.cm, drawn.seconds);
      const [from, to] = cellsOf[j]!;
      const isOther = isOtherShape(dive, drawn.cm);
      for (let c = from; c < to; c += 1) {
        const cell = cells[c]!;
        this.drawCell(run, cell, c, seeds);
        if (isOther) this.isLeft[cell.diver] = 1;
        if (this.isLeft[cell.diver] === 0) this.cell(c, cell, dive, drawn);
      }
    }
    for (let d = 0; d < people.length; d += 1) if (this.isLeft[d] === 1) this.byLedger(d);
  }

  private draw(run: number, j: number, dive: DiveTable, drawn: DrawnDive, seeds: Seeds): void {
    const { counter } = this;
    const { scatter, around } = this.table;
    counter.at(seeds.depthM, run, j, 0);
    const cm = Math.round(normalOf(counter.x) * scatter.depthM * CM);
    // A whole number of 32 bits: as such it is an index, and -0 none.
    drawn.cm = Math.max(dive.leastCm, Math.min(dive.mostCm, cm)) | 0;
    if (seeds.bottomMin !== seeds.depthM) counter.at(seeds.bottomMin, run, j, 0);
    const seconds = Math.round(normalOf(counter.y) * scatter.bottomMin * SECONDS);
    if (seeds.startMin !== seeds.bottomMin) counter.at(seeds.startMin, run, j, 0);
    drawn.startMin = Math.round(normalOf(counter.z) * scatter.startMin) | 0;
    const wayMin = dive.isSquare ? drawn.cm / CM / around.descentMPerMin : 0;
    const leastSeconds = Math.ceil((dive.leastStayMin - dive.lastStayMin + wayMin) * SECONDS - SAME_MIN);
    drawn.seconds = Math.max(leastSeconds, seconds) | 0;
  }

  private drawCell(run: number, cell: CellTable, c: number, seeds: Seeds): void {
    const { counter } = this;
    const { scatter } = this.table;
    counter.at(seeds.rateShare, run, cell.dive, 1 + cell.diver);
    this.rate[c] = cell.person.surfaceRateLpm * (1 + normalOf(counter.x) * scatter.rateShare);
    if (cell.isAir) {
      this.o2[c] = cell.o2;
      return;
    }
    if (seeds.o2 !== seeds.rateShare) counter.at(seeds.o2, run, cell.dive, 1 + cell.diver);
    this.o2[c] = cell.o2 + normalOf(counter.y) * scatter.o2;
  }

  /** Brings a diver through the interval, whose factors are made once for all who come from the same dive. @returns minutes of it */
  private rest(cell: CellTable, drawn: DrawnDive): number {
    const { excess, interval, table } = this;
    const base = cell.diver * N;
    const { before } = cell;
    const lastMin = before === -1 ? table.people[cell.diver]!.carry.atMin : this.outMin[before]!;
    const sinceMin = cell.startMin + drawn.startMin - lastMin;
    if (sinceMin <= 0) return 0;
    const isOwn = before === -1 || this.stopsMin[before] !== 0;
    const from = isOwn ? -1 : table.cells[before]!.dive;
    if (from === -1 || from !== this.intervalFrom) this.makeInterval(cell, drawn);
    this.intervalFrom = from;
    for (let i = 0; i < N; i += 1) excess[base + i] = excess[base + i]! * interval[i]!;
    return sinceMin;
  }

  private makeInterval({ kept, before }: CellTable, { startMin }: DrawnDive): void {
    const { interval, table } = this;
    const { upKept, longerKept, later } = table;
    const previous = before === -1 ? null : this.drawn[table.cells[before]!.dive]!;
    const laterAt = later.zero + (startMin - (previous === null ? 0 : previous.startMin)) * N;
    if (previous === null) {
      for (let i = 0; i < N; i += 1) interval[i] = kept[i]! * later.at[laterAt + i]!;
      return;
    }
    const upAt = upKept.zero - previous.cm * N;
    const longerAt = longerKept.zero - previous.seconds * N;
    const [ups, longers, laters] = [upKept.at, longerKept.at, later.at];
    for (let i = 0; i < N; i += 1) {
      interval[i] = kept[i]! * laters[laterAt + i]! * ups[upAt + i]! * longers[longerAt + i]!;
    }
    const stopsMin = this.stopsMin[before]!;
    if (stopsMin === 0) return;
    for (let i = 0; i < N; i += 1) interval[i] = interval[i]! * Math.exp(RATES_PER_MIN[i]! * stopsMin);
  }

  /** A diver through a dive. */
  private cell(
    c: number,
    cell: CellTable,
    dive: DiveTable,
    { cm, seconds, startMin: laterMin }: DrawnDive,
  ): void {
    const { maps, excess, table, single, rates } = this;
    const { airBar, around } = table;
    const d = cell.diver;
    const base = d * N;
    const { limits } = table.people[d]!;
    const o2 = this.o2[c]!;
    const n2 = 1 - o2;
    const rate = this.rate[c]!;
    const deeperBar = (around.column.barPerM * cm) / CM;
    if (o2 * (dive.deepestBar + deeperBar) > LAST_LIMIT_BAR) {
      this.isLeft[d] = 1;
      return;
    }
    const sinceMin = this.rest(cell, this.drawn[cell.dive]!);
    if (sinceMin !== this.restedMin) {
      this.restedMin = sinceMin;
      this.restedShare = Math.exp(-LN2_PER_HALF_TIME * sinceMin);
    }
    const cnsBefore = this.cns[d]! * this.restedShare;

    const leftL = gasLeftL(table, maps, cell, dive, cm, rate, o2);
    const lastBar = dive.lastBar + deeperBar;
    const gasMin = leftL / (rate * lastBar);
    const longerMin = seconds / SECONDS;
    const bottomMin = dive.bottomMin + longerMin;
    const stayMin = dive.lastStayMin + longerMin - (dive.isSquare ? cm / CM / around.descentMPerMin : 0);

    let passed = passedDepths(o2, dive.deepestM + cm / CM, cell.person, around.column) | passedGas(leftL);
    let isPastLevel = false;
    for (let l = 0; l < dive.direct.length - 1 && !isPastLevel; l += 1) {
      const { decay, uptake } = maps.levels[l]!;
      for (let i = 0; i < N; i += 1) {
        if (decay[i]! * (excess[base + i]! + airBar) + n2 * uptake[i]! > limits[i]!) isPastLevel = true;
      }
    }
    // Minutes at the last level to the limit of each compartment: ln(1 + x) / k, which is no less than 2x / (2 + x) / k. So a
    // logarithm is taken only where that lies below what the others leave.
    const inspired = n2 * (lastBar - WATER_VAPOUR_BAR);
    const { decay, uptake } = maps.arrive;
    const { upInverse } = maps;
    const upUptake = maps.up.uptake;
    let lastMin = stayMin + Math.max(0, gasMin);
    for (let i = 0; i < N; i += 1) {
      const limit = (limits[i]! - n2 * upUptake[i]!) * upInverse[i]!;
      const left = limit - decay[i]! * (excess[base + i]! + airBar) - n2 * uptake[i]!;
      if (left < 0) {
        lastMin = -Infinity;
        break;
      }
      const over = inspired - limit;
      if (over > 0 && 2 * left < lastMin * rates[i]! * (2 * over + left)) {
        lastMin = Math.min(lastMin, Math.log1p(left / over) / rates[i]!);
      }
    }
    // Past the limit on arrival the no-stop time of the dive is 0.
    const noStopMin = lastMin === -Infinity ? -bottomMin : lastMin - stayMin;
    const isOver = noStopMin < -SAME_MIN;
    const isPastLimit = isOver || isPastLevel;
    if (isPastLimit) passed |= PASSED['no-stop'];

    const asPlanned = this.shareOf(single, dive, cm, seconds, o2, deeperBar);
    this.stopsMin[c] = 0;
    this.singleShare[c] = asPlanned;
    this.dailyShare[c] = NaN;
    if (isPastLimit) passed |= this.withStops(c, cell, dive, n2);
    else {
      const kept = maps.whole.decay;
      const taken = maps.whole.uptake;
      for (let i = 0; i < N; i += 1) {
        excess[base + i] = kept[i]! * (excess[base + i]! + airBar) + n2 * taken[i]! - airBar;
      }
    }
    this.cns[d] = cnsBefore + this.singleShare[c]!;
    const lastPo2 = o2 * lastBar;
    const lastLimitMin = single.limitMin(lastPo2);
    let room = Math.min(noStopMin, gasMin);
    const cnsAfter = isOver ? cnsBefore + asPlanned : this.cns[d]!;
    if (lastLimitMin !== Infinity) room = Math.min(room, (1 - cnsAfter) * lastLimitMin);
    else if (cnsAfter > 1) room = -Infinity;
    const enterMin = cell.startMin + laterMin;
    this.outMin[c] =
      enterMin + dive.runtimeMin + longerMin + cm / CM / around.ascentMPerMin + this.stopsMin[c]!;
    if (!this.isDayClear(c, cell, enterMin, room, lastPo2)) {
      this.isLeft[d] = 1;
      return;
    }
    this.passed[c] = passed | passedClocks(this.cns[d]!, 0);
    this.room[c] = isPastLevel || room < -stayMin ? -Infinity : room;
  }

  /** A dive past its limit, by the ledger: see `madePastLimit`. @returns whether gas is short with its stops */
  private withStops(c: number, cell: CellTable, dive: DiveTable, n2: number): number {
    const { excess, table } = this;
    this.stopped += 1;
    const drawn = this.drawn[cell.dive]!;
    this.dive ??= scatteredDive(dive, drawn);
    const base = cell.diver * N;
    const before = Array.from({ length: N }, (_, i) => excess[base + i]! + table.airBar);
    const diver = breathing(cell.person, this.rate[c]!);
    const made = madePastLimit(table, this.dive, diver, this.o2[c]!, before);
    const { decay, uptake } = made.whole;
    for (let i = 0; i < N; i += 1) excess[base + i] = decay[i]! * before[i]! + n2 * uptake[i]! - table.airBar;
    this.stopsMin[c] = made.stopsMin;
    this.singleShare[c] = made.singleShare;
    this.dailyShare[c] = made.dailyShare;
    return passedGas(made.spareL);
  }

  /** Share of a clock that a dive as planned takes. @param sums of the clock */
  private shareOf(
    sums: ShareSums,
    dive: DiveTable,
    cm: number,
    seconds: number,
    o2: number,
    deeperBar: number,
  ): number {
    const { surfaceBar } = this.table.around.column;
    let share = 0;
    // A slope begins where the one before it ended.
    let before = sums.upTo(o2 * surfaceBar);
    for (const step of dive.steps) {
      if (step.slope === 0) {
        const limitMin = sums.limitMin(o2 * (step.fromBar + deeperBar));
        if (limitMin !== Infinity) share += this.maps.minOf(step, cm, seconds) / limitMin;
      } else {
        const after = sums.upTo(o2 * (step.toBar + step.toMoves * deeperBar));
        share += (after - before) / (o2 * step.slope);
        before = after;
      }
    }
    const { ascent, stop } = dive;
    const after = sums.upTo(o2 * ascent.toBar);
    share += (after - before) / (o2 * ascent.slope);
    if (stop === null) return share;
    const stopMin = stop.min / sums.limitMin(o2 * stop.bar);
    return (
      share + stopMin + ((after - sums.upTo(o2 * surfaceBar)) * stop.lastMin) / (o2 * (stop.bar - surfaceBar))
    );
  }

  /**
   * Whether the 24 h clock limits nothing, by what it could read at most: all shares whose dives end within a day of this
   * one's start. Those of the single exposure are no less than those of the day, and are there; where they do not settle
   * it those of the day are asked.
   */
  private isDayClear(c: number, cell: CellTable, enterMin: number, room: number, lastPo2: number): boolean {
    const limitMin = this.daily.limitMin(lastPo2);
    let early = 0;
    for (const { endMin, share } of this.table.people[cell.diver]!.taken) {
      if (endMin > enterMin - DAY_MIN) early += share;
    }
    let sum = early;
    for (let at = c; at !== -1 && this.outMin[at]! > enterMin - DAY_MIN; at = this.table.cells[at]!.before) {
      sum += this.singleShare[at]!;
    }
    if (allows(sum, limitMin, room)) return true;
    sum = early;
    for (let at = c; at !== -1 && this.outMin[at]! > enterMin - DAY_MIN; at = this.table.cells[at]!.before) {
      sum += this.dailyShareOf(at);
    }
    return allows(sum, limitMin, room);
  }

  private dailyShareOf(c: number): number {
    if (!Number.isNaN(this.dailyShare[c]!)) return this.dailyShare[c]!;
    const { dive } = this.table.cells[c]!;
    const { cm, seconds } = this.drawn[dive]!;
    const deeperBar = (this.table.around.column.barPerM * cm) / CM;
    return (this.dailyShare[c] = this.shareOf(
      this.daily,
      this.table.dives[dive]!,
      cm,
      seconds,
      this.o2[c]!,
      deeperBar,
    ));
  }

  /** All dives of a diver by the ledger's own steps, where the quick way cannot tell. */
  private byLedger(d: number): void {
    const { table } = this;
    const { trip, around, cells, dives, people } = table;
    const surface = atSurface(trip, around.column.surfaceBar);
    this.left += 1;
    let { carry } = people[d]!;
    cells.forEach((cell, c) => {
      if (cell.diver !== d) return;
      const drawn = this.drawn[cell.dive]!;
      const dive = scatteredDive(dives[cell.dive]!, drawn);
      const breathed = { rateLpm: this.rate[c]!, o2: this.o2[c]! };
      const used = asUsed(trip, cell, breathed.rateLpm);
      const entry = scatteredEntry({ trip: used, dives }, cell, dive, drawn, breathed, carry, surface);
      this.room[c] = roomNumber(used, entry);
      this.passed[c] = passedBy(entry, used, dives[cell.dive]!.around.column);
      carry = entry.after;
    });
  }
}

/** Whether a clock that reads so much at most is met after another limit. @param room minutes to that */
function allows(sum: number, limitMin: number, room: number): boolean {
  return sum <= 1 && (limitMin === Infinity || (1 - sum) * limitMin >= room);
}
