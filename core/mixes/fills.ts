import { idealBar } from '../compressibility';
import { AIR_O2 } from '../gas';
import { increasingRoot } from '../numeric';
import { failure, success, type Result } from '../result';
import { fileWords, worded, type Words } from '../words/reader';
import { figure, said, typed } from '../words/said';
import { contentL, pressureBar, type GasLaw } from '../supply';
import { BAR_PER_PSI } from '../units';
import type { System } from '../words/quantity';
import type { Entry, Ledger } from '../ledger/ledger-types';
import { mixO2 } from '../ledger/mix-choice';
import type { Id, Mix } from '../document/types';
import { SEA_LEVEL_BAR } from '../water';
import { isLoopOxygen, isWithoutPrice, loopFills, type LoopCylinder, type LoopUse } from './loop-cylinders';
import { isAir } from './stocked-trip';

/**
 * How a cylinder gets its mix: "banked" from a store of that mix, which was made of oxygen and air; by "partial
 * pressure", oxygen first and air on top; by "continuous" blending, oxygen let into the air that the compressor takes
 * in; or through a "membrane" that holds nitrogen back, which takes no oxygen from bottles.
 */
export type FillMethod = 'banked' | 'partial-pressure' | 'continuous' | 'membrane';

/** Drained pressures are found to this, bar. */
const PRESSURE_TOLERANCE_BAR = 1e-6;

/** Litres may miss 0 by rounding alone. */
const SAME_L = 1e-6;

/**
 * All the gas in a cylinder, what is left at gauge 0 included.
 * @returns litres at 1 bar. Ideal: volume * absolute pressure; real: volume * Q(p) * Z(1 bar), Q = p / Z(p)
 * Source: as `contentL` (core/supply.ts).
 */
function amountL(waterL: number, gaugeBar: number, o2: number, law: GasLaw): number {
  if (law === 'ideal') return waterL * (gaugeBar + SEA_LEVEL_BAR);
  return (waterL * idealBar(o2, gaugeBar + SEA_LEVEL_BAR)) / idealBar(o2, 1);
}

/** A cylinder and what is in it before it is filled. */
export interface FillStart {
  readonly waterL: number;
  /** Gauge pressure before, and wanted. */
  readonly startBar: number;
  readonly fillBar: number;
  /** Oxygen fraction of what is in it. */
  readonly startO2: number;
}

/** One cylinder filled by partial pressure. */
export interface PartialPressureFill {
  /** Oxygen to put in first, and air on top, litres at 1 bar. */
  readonly oxygenL: number;
  readonly airL: number;
  /** Gauge pressure the fill begins at: lower than asked where gas had to be let off. */
  readonly fromBar: number;
  readonly isDrained: boolean;
  /** Gauge pressure after the oxygen, once it has cooled. */
  readonly afterOxygenBar: number;
}

/** Oxygen and air that bring one amount of gas to another; negative where none would. */
function toAdd(
  start: FillStart,
  gaugeBar: number,
  o2: number,
  law: GasLaw,
): { oxygenL: number; airL: number } {
  const fullL = amountL(start.waterL, start.fillBar, o2, law);
  const heldL = amountL(start.waterL, gaugeBar, start.startO2, law);
  // Of what is added: x + y = full - held, x + 0.21 y = full o2 - held o2'.
  const addedL = fullL - heldL;
  const addedO2L = fullL * o2 - heldL * start.startO2;
  const airL = (addedL - addedO2L) / (1 - AIR_O2);
  return { oxygenL: addedL - airL, airL };
}

export type FillTroubleKind = 'full' | 'no-fill';

/**
 * Fills one cylinder by partial pressure: oxygen first, then air. Where what is in it is too rich or too lean
 * for the mix, it is let down first, no further than it must be.
 * @param start cylinder and contents; @param o2 oxygen fraction wanted, 0.21 to below 1
 * @param words of whoever reads the trouble
 * @returns litres of each, and the pressures on the way; trouble where the cylinder is full already, or where
 *   even an empty one of such gas cannot become the mix
 * Source: Dalton's law; compressibility as in core/compressibility.ts (Amagat's mean).
 */
export function partialPressureFill(
  start: FillStart,
  o2: number,
  law: GasLaw,
  words: Words = fileWords,
): Result<PartialPressureFill, FillTroubleKind> {
  const { waterL, startBar, fillBar, startO2 } = start;
  if (startBar >= fillBar) {
    return failure({
      kind: 'full',
      where: '',
      ...worded(
        {
          what: said`A cylinder at ${typed('pressure', startBar)} cannot be filled to ${typed('pressure', fillBar)}.`,
          mend: said`Give a start pressure below the fill pressure.`,
        },
        words,
      ),
    });
  }
  const spare = (gaugeBar: number): number => {
    const { oxygenL, airL } = toAdd(start, gaugeBar, o2, law);
    return Math.min(oxygenL, airL);
  };
  let fromBar = startBar;
  if (spare(startBar) < -SAME_L) {
    if (spare(0) < 0) {
      return failure({
        kind: 'no-fill',
        where: '',
        ...worded(
          {
            what: said`What is left of ${figure('oxygen', startO2)} cannot become ${figure('oxygen', o2)} by adding oxygen and air.`,
            mend: said`Empty the cylinder and flush it with air first.`,
          },
          words,
        ),
      });
    }
    fromBar = increasingRoot((gaugeBar) => -spare(gaugeBar), 0, startBar, PRESSURE_TOLERANCE_BAR);
  }
  const { oxygenL, airL } = toAdd(start, fromBar, o2, law);
  const heldL = amountL(waterL, fromBar, startO2, law);
  const withOxygenO2 = (heldL * startO2 + oxygenL) / (heldL + oxygenL);
  const atGaugeZeroL = amountL(waterL, 0, withOxygenO2, law);
  return success({
    oxygenL,
    airL,
    fromBar,
    isDrained: fromBar < startBar,
    afterOxygenBar: pressureBar(waterL, heldL + oxygenL - atGaugeZeroL, withOxygenO2, law) ?? 0,
  });
}

/**
 * Oxygen and air that make up an amount of a mix.
 * @param litres at 1 bar @param o2 fraction, 0.21 to 1
 * @returns litres: oxygen L (o2 - 0.21) / 0.79, the rest air
 * Source: Dalton's law.
 */
export function makeUp(litres: number, o2: number): { readonly oxygenL: number; readonly airL: number } {
  const oxygenL = (litres * (o2 - AIR_O2)) / (1 - AIR_O2);
  return { oxygenL, airL: litres - oxygenL };
}

/** Cylinders come back with this much where nobody says otherwise. Source: common practice, 50 bar or 700 psi of reserve. */
export const USUAL_STARTS_BAR: Readonly<Record<System, number>> = { metric: 50, imperial: 700 * BAR_PER_PSI };

/** How the fills of a trip are made. */
export interface FillRequest {
  readonly method: FillMethod;
  readonly law: GasLaw;
  /** Gauge pressure every cylinder comes back with, 0 or more. */
  readonly startBar: number;
  /** Oxygen fraction of what is left in it, for partial pressure; null: the mix it is filled with again. */
  readonly startO2: number | null;
}

/** The fills of one mix on one day. */
export interface FillLine {
  /** "2027-03-06" */
  readonly date: string;
  readonly mix: Mix;
  readonly fills: number;
  /** Gas put into the cylinders, litres at 1 bar, and the oxygen and air it takes. */
  readonly litres: number;
  readonly oxygenL: number;
  /** Null of a membrane: it takes in more air than it gives gas, and how much more is a figure of its make. */
  readonly airL: number | null;
  /** Null where nobody said what the gas costs. */
  readonly cost: number | null;
  /** Cylinders that must be let down first, and those this way cannot fill. */
  readonly drained: number;
  readonly impossible: number;
}

/** All fills of a trip. */
export interface FillPlan {
  readonly lines: readonly FillLine[];
  /** Of the oxygen in all, what goes into loops' own cylinders as it is, by partial pressure into diluent too, litres at 1 bar. */
  readonly loopOxygenL: number;
  /** Its cost is of what has a price. */
  readonly total: Omit<FillLine, 'date' | 'mix' | 'cost'> & { readonly cost: number };
}

type Sums = { -readonly [Key in keyof FillPlan['total']]: FillPlan['total'][Key] };

function noSums(): Sums {
  return { fills: 0, litres: 0, oxygenL: 0, airL: 0, cost: 0, drained: 0, impossible: 0 };
}

/** What is not known of one is not known of all. */
function both(one: number | null, other: number | null): number | null {
  return one === null || other === null ? null : one + other;
}

function addCylinder(sums: Sums, start: FillStart, mix: Mix, request: FillRequest): void {
  sums.fills += 1;
  sums.cost += mix.costPerFill;
  const o2 = mixO2(mix);
  if (isLoopOxygen(mix)) {
    const litres =
      contentL(start.waterL, start.fillBar, 1, request.law) -
      contentL(start.waterL, start.startBar, 1, request.law);
    sums.litres += litres;
    sums.oxygenL += litres;
    return;
  }
  if (o2 < AIR_O2 - 1e-9) {
    // Leaner than air is not made of oxygen and air.
    sums.impossible += 1;
    return;
  }
  if (request.method !== 'partial-pressure' || isAir(mix)) {
    const { waterL, fillBar } = start;
    // Air goes only on air: anything richer is let off, and the bar that stays behind adds under 0.1 %.
    const isEmptied =
      start.startO2 > o2 + 1e-9 && start.startBar > 0 && request.method === 'partial-pressure';
    const fromL = isEmptied ? 0 : contentL(waterL, start.startBar, o2, request.law);
    const litres = contentL(waterL, fillBar, o2, request.law) - fromL;
    const { oxygenL, airL } =
      request.method === 'membrane' && !isAir(mix) ? { oxygenL: 0, airL: null } : makeUp(litres, o2);
    if (isEmptied) sums.drained += 1;
    sums.litres += litres;
    sums.oxygenL += oxygenL;
    sums.airL = both(sums.airL, airL);
    return;
  }
  const fill = partialPressureFill(start, o2, request.law);
  if (!fill.ok) {
    sums.impossible += 1;
    return;
  }
  sums.litres += fill.value.oxygenL + fill.value.airL;
  sums.oxygenL += fill.value.oxygenL;
  sums.airL = both(sums.airL, fill.value.airL);
  if (fill.value.isDrained) sums.drained += 1;
}

/** A cylinder that is filled for a dive. */
export interface Filled extends FillStart {
  readonly mix: Mix;
  /** What of a loop it is; null: breathed on open circuit, from the start. */
  readonly use: LoopUse | null;
}

/** The cylinders that are filled for a dive of a diver. @param loops those of its loop, where it is made on one */
function filledFor(
  entry: Entry,
  loops: readonly LoopCylinder[] | undefined,
  { startBar, startO2 }: Pick<FillRequest, 'startBar' | 'startO2'>,
): readonly Filled[] {
  const { mix, diver, loop, isMade } = entry;
  if (loops !== undefined) {
    // Of oxygen and diluent it is as much as the dive took.
    const left = { oxygen: loop!.oxygen.leftBar ?? 0, diluent: loop!.diluentGas.leftBar ?? 0 };
    return loops.map(({ use, mix: of, cylinder }) =>
      use === 'bail-out'
        ? { use, mix: of, ...cylinder, startBar, startO2: startO2 ?? mixO2(of) }
        : { use, mix: of, ...cylinder, startBar: left[use], startO2: mixO2(of) },
    );
  }
  if (!isMade || mix === null) return [];
  return [{ use: null, mix, ...diver.cylinder, startBar, startO2: startO2 ?? mixO2(mix) }];
}

/**
 * Every cylinder that is filled, diver by diver.
 * @param diveIds only for these dives; null: all @returns what it is filled with and comes back with; air and oxygen too
 * Source: as `fillPlan`.
 */
export function filledCylinders(
  ledger: Ledger,
  request: Pick<FillRequest, 'startBar' | 'startO2'>,
  diveIds: ReadonlySet<Id> | null = null,
): readonly { readonly entry: Entry; readonly filled: Filled }[] {
  return ledger.divers.flatMap(({ entries }) => {
    const counted = entries.filter(({ dive }) => diveIds === null || diveIds.has(dive.id));
    const loops = loopFills(ledger.trip, counted);
    return counted.flatMap((entry) =>
      filledFor(entry, loops.get(entry), request).map((filled) => ({ entry, filled })),
    );
  });
}

/** The least pressure that a cylinder of a party is filled to from what it comes back with, bar. */
function lowestFillBar({ divers }: Ledger): number {
  const bars = divers.flatMap(({ diver, entries }) => {
    const bailOut = entries.some(({ loop }) => loop !== null) ? diver.loop!.bailOut : [];
    return [diver.cylinder.fillBar, ...bailOut.map(({ cylinder }) => cylinder.fillBar)];
  });
  return Math.min(...bars);
}

/**
 * Fills by day and mix, with the oxygen and air to bring; of loops diluent and oxygen again after every dive, bail-out once.
 * @param ledger whose made entries are filled for, each by its diver's cylinder
 * @param request method, gas law and what the cylinders come back with
 * @param diveIds only these dives; null: all @param words of whoever reads the trouble
 * @returns a line a day and mix in order of time, leanest first, and their sum; trouble where the start
 *   pressure is not below every cylinder's fill
 * Source: Dalton's law; content as in core/supply.ts. Gas lost in hoses, whips and analysing is not counted.
 */
export function fillPlan(
  ledger: Ledger,
  request: FillRequest,
  diveIds: ReadonlySet<Id> | null = null,
  words: Words = fileWords,
): Result<FillPlan, 'start'> {
  const lowestBar = lowestFillBar(ledger);
  if (!(request.startBar >= 0 && request.startBar < lowestBar)) {
    return failure({
      kind: 'start',
      where: 'start pressure',
      ...worded(
        {
          what: said`${typed('pressure', request.startBar)} is no pressure to start a fill from.`,
          mend: said`Give a pressure from 0 to below ${typed('pressure', lowestBar, 'down')}, the least fill of the party.`,
        },
        words,
      ),
    });
  }
  const byLine = new Map<string, { readonly date: string; readonly mix: Mix; readonly sums: Sums }>();
  const isByPressure = request.method === 'partial-pressure';
  let loopOxygenL = 0;
  for (const { entry, filled } of filledCylinders(ledger, request, diveIds)) {
    const { mix } = filled;
    const date = entry.dive.startsAt.slice(0, 10);
    const key = `${date} ${mix.id}`;
    let line = byLine.get(key);
    if (!line) byLine.set(key, (line = { date, mix, sums: noSums() }));
    const { oxygenL } = line.sums;
    addCylinder(line.sums, filled, mix, request);
    const isAdded = filled.use === 'oxygen' || (filled.use === 'diluent' && isByPressure);
    if (isAdded) loopOxygenL += line.sums.oxygenL - oxygenL;
  }
  const lines = [...byLine.values()]
    .map(({ date, mix, sums }): FillLine => ({
      date,
      mix,
      ...sums,
      cost: isWithoutPrice(mix) ? null : sums.cost,
    }))
    .toSorted((a, b) => (a.date === b.date ? a.mix.o2 - b.mix.o2 : a.date < b.date ? -1 : 1));
  const total = noSums();
  for (const line of lines) {
    for (const key of Object.keys(total) as (keyof Sums)[]) {
      if (key === 'airL') total.airL = both(total.airL, line.airL);
      else total[key] += line[key] ?? 0;
    }
  }
  return success({ lines, loopOxygenL, total });
}
