/*
 * Every figure of every entry, worked out anew from the numbers that its workings show and from nothing else, as a
 * person would on a calculator: the figure lies among what these digits can come to.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../core/document/demo-trip';
import type { Trip } from '../../core/document/types';
import { ledger } from '../../core/ledger/ledger';
import { fileWords } from '../../core/words/reader';
import { figuresOf, workingsOf } from '../../core/workings/all';
import { FIGURES, type Workings } from '../../core/workings/types';
import {
  by,
  exactly,
  greatest,
  least,
  minus,
  over,
  plus,
  shownIn,
  times,
  type Shown,
} from '../support/shown-number';
import { trips } from '../support/trip-arbitrary';

const HUNDRED = exactly(100);

/** Steps by what their labels hold. */
class Put {
  constructor(private readonly workings: Workings) {}

  get steps() {
    return this.workings.steps;
  }

  has(label: string): boolean {
    return this.steps.some((step) => step.label.includes(label));
  }

  text(label: string): string {
    const step = this.steps.find((each) => each.label.includes(label));
    if (step === undefined) throw new Error(`${this.workings.figure} shows no "${label}"`);
    return step.value;
  }

  value(label: string, at = 0): Shown {
    return shownIn(this.text(label))[at]!;
  }

  percent(label: string): Shown {
    return over(this.value(label), HUNDRED);
  }

  /** The last number of each step that is numbered, as legs are. */
  legs(): readonly Shown[] {
    return this.steps.filter(({ label }) => /^\d+\. /.test(label)).map(({ value }) => shownIn(value).at(-1)!);
  }
}

/** e.g. 3 h 15 min or 75 min of the interval; ln 2 / half-time. */
function rate(put: Put, label: string): Shown {
  return over(exactly(Math.LN2), exactly(Number(/half-time ([\d.]+)/.exec(put.text(label))![1])));
}

/** A difference that is above 0, as other lines would stand there else, where the digits of both sides read alike. */
function risen({ from, to }: Shown): Shown {
  return { from: Math.max(from, Number.MIN_VALUE), to };
}

/** ln(1 + (L − p) / (I − L)) / k after the arrival. */
function noStop(put: Put): Shown | null {
  if (put.has('Compartments whose limit lies below I')) return null;
  if (put.has('p is above L already')) return exactly(0);
  const [p, l] = [put.value(', p'), put.value(', L')];
  const inspired = put.value('Inspired nitrogen');
  const arrival = put.has('Arrival') ? put.value('Arrival') : put.value('Way from');
  // What the digits of p and L leave open is wide where the two lie close: the step shows the time itself too.
  const shown = put.value('Time at the level');
  const stay = over(
    by(Math.log1p, over(risen(minus(l, p)), risen(minus(inspired, l)))),
    rate(put, 'Compartment that meets'),
  );
  expect(stay.from).toBeLessThanOrEqual(shown.to);
  expect(stay.to).toBeGreaterThanOrEqual(shown.from);
  return plus(arrival, shown);
}

/** "2027-03-19 at 16:19", or "… 16:19 and 0.667 min", minutes since 1970. */
function moment(text: string): Shown {
  const [, date, clock, rest] = /(\d{4}-\d\d-\d\d) at (\d\d:\d\d)(?: and ([\d.]+) min)?/.exec(text)!;
  const whole = exactly(Date.parse(`${date}T${clock}Z`) / 60_000);
  return rest === undefined ? whole : plus(whole, shownIn(rest)[0]!);
}

/** ln((p − rest) / (tolerated − rest)) / k of a compartment, held against the time that is shown. */
function fallMin(
  put: Put,
  [which, p, rest, tolerated, shown]: readonly [string, string, string, string, string],
  share: number,
): Shown {
  // Up a mountain in between, it falls to another rest in each stretch.
  if (put.has('Heights after')) return put.value(shown);
  const atRest = put.value(rest);
  const allowed = times(exactly(share), minus(put.value(tolerated), atRest));
  const worked = over(by(Math.log, over(minus(put.value(p), atRest), allowed)), rate(put, which));
  // Close to rest the digits leave much open: the step shows the time itself too.
  expect(worked.from).toBeLessThanOrEqual(put.value(shown).to);
  expect(worked.to).toBeGreaterThanOrEqual(put.value(shown).from);
  return put.value(shown);
}

/** What the air holds a gauge at that reads 0, bar. Source: ISO 2533:1975, sea level. */
const P0 = exactly(1.01325);

/** The pressure on the gauge of so many litres in a cylinder of real gas, by the Z shown for it. */
function realBar(put: Put, litres: Shown, waterL: number, z: string): Shown {
  const perLitre = over(over(litres, put.value('Z where litres')), exactly(waterL));
  const amount = plus(perLitre, over(P0, put.value('Z where the gauge')));
  return minus(times(amount, put.value(z)), P0);
}

/** The litres at a pressure on the gauge: volume × (p / Z(p) − P0 / Z(P0)) × Z(1 bar). */
function realL(put: Put, gaugeBar: number, waterL: number, z: string): Shown {
  const amount = minus(
    over(plus(exactly(gaugeBar), P0), put.value(z)),
    over(P0, put.value('Z where the gauge')),
  );
  return times(times(amount, exactly(waterL)), put.value('Z where litres'));
}

/** What a full cylinder holds comes from its size and its fill. */
function expectContent(put: Put): number {
  const label = put.steps.find((step) => step.label.startsWith('Content of'))!.label;
  const [, waterL, fillBar] = /Content of ([\d.]+) L at ([\d.]+) bar/.exec(label)!.map(Number);
  const content = label.includes('ideal')
    ? exactly(waterL! * fillBar!)
    : realL(put, fillBar!, waterL!, 'Z at the fill');
  expect(content.from).toBeLessThanOrEqual(put.value('Content of').to);
  expect(content.to).toBeGreaterThanOrEqual(put.value('Content of').from);
  return waterL!;
}

const depth = (bar: Shown, put: Put): Shown => over(minus(bar, put.value('P0')), put.value(', w'));

/** By figure, what its numbers come to; null: there is none; left out: nothing to work out, such as a reading. */
const BY_HAND: Readonly<Record<string, (put: Put, workings: Workings) => Shown | null>> = {
  noStopMin: noStop,
  stops: (put) =>
    plus(
      ...put.steps
        .filter(({ label }) => label.startsWith('At '))
        .map(({ value }) => exactly(Number.parseFloat(value))),
    ),
  leading: (put) =>
    over(
      minus(put.value('Its tension'), put.value('At rest, 0.79')),
      minus(put.value('Tolerated'), put.value('At rest, 0.79')),
    ),
  'room.min': (put) =>
    least(put.steps.filter(({ label }) => label.startsWith('To ')).map(({ value }) => shownIn(value)[0]!)),
  'room.m': (put) => {
    const found = put.steps.find(({ label }) => label.includes('found by trying'));
    if (found !== undefined) return shownIn(found.value)[0]!;
    return least(put.steps.map(({ value }) => shownIn(value)[0]!));
  },
  earlierMin: (put) => {
    const needs = put.steps.filter(
      ({ label }) => label.startsWith('Interval ') && label !== 'Interval before the dive',
    );
    if (put.has('Interval it needs')) {
      const [p, q, air] = [put.value(', p'), put.value(', q'), put.value('A = ')];
      const need = over(
        by(Math.log, over(minus(p, air), minus(q, air))),
        rate(put, 'Compartment that needs'),
      );
      const shown = put.value('Interval it needs');
      expect(need.from).toBeLessThanOrEqual(shown.to);
      expect(need.to).toBeGreaterThanOrEqual(shown.from);
    }
    return minus(put.value('Interval before'), greatest(needs.map(({ value }) => shownIn(value)[0]!)));
  },
  modM: (put) => depth(over(exactly(Number.parseFloat(put.text('Working PO2'))), put.percent('Oxygen')), put),
  po2Bar: (put) => times(put.percent('Oxygen'), put.value('Ambient')),
  eadM: (put) => depth(over(times(put.value('Ambient'), put.percent('Nitrogen')), exactly(0.79)), put),
  gasDensityGL: (put) => times(put.value('at 1 bar'), put.value('Ambient')),
  'cns.before': (put) => {
    if (put.steps.length < 2) return exactly(0);
    return times(
      put.percent('After'),
      by((min) => 2 ** (-min / 90), put.value('surface')),
    );
  },
  'cns.after': (put) => plus(put.percent('Before'), ...put.legs().map((leg) => over(leg, HUNDRED))),
  'cns.day': (put) => over(plus(...put.steps.map(({ value }) => shownIn(value)[0]!)), HUNDRED),
  'otu.dive': (put) => plus(...put.legs()),
  'otu.day': (put) => plus(put.value('Dives before'), put.value('This dive')),
  'otu.trip': (put) => plus(put.value('Dives before'), put.value('This dive')),
  'esot.dive': (put) => plus(...put.legs()),
  'esot.day': (put) => plus(put.value('Dives before'), put.value('This dive')),
  usedL: (put) => {
    if (!put.has('Left, as read')) return plus(...put.legs());
    const waterL = expectContent(put);
    const read = Number.parseFloat(put.text('Left, as read'));
    const isReal = put.has('Z at what was read');
    const left = isReal ? realL(put, read, waterL, 'Z at what was read') : exactly(read * waterL);
    return minus(put.value('Content of'), left);
  },
  interval: (put) => minus(moment(put.text('Leaving the surface')), moment(put.text('Surfacing from'))),
  flyAfter: (put) => {
    const surfaced = moment(put.text('Last surfacing'));
    const hours = exactly(60 * Number(/: (\d+) h after/.exec(put.text('Published hours'))![1]));
    const wait = /(?:(\d+) h)?(?: ?(\d+) min)? from group/.exec(put.text('Government table'));
    const table = wait === null ? exactly(0) : exactly(60 * Number(wait[1] ?? 0) + Number(wait[2] ?? 0));
    const labels = [
      'Compartment that waits',
      'Its p on',
      'Its p at rest',
      'Tolerated in the',
      'Time it waits',
    ] as const;
    const model = put.has('Time it waits') ? fallMin(put, labels, 1) : exactly(0);
    return plus(surfaced, greatest([hours, table, model]));
  },
  climbs: (put) => {
    const surfaced = moment(put.text('Last surfacing before it'));
    const hours = exactly(60 * Number(/: (\d+) h after/.exec(put.text('Published hours'))![1]));
    const wait = /(?:(\d+) h)?(?: ?(\d+) min)? from group/.exec(put.text('Government table'));
    const table = wait === null ? exactly(0) : exactly(60 * Number(wait[1] ?? 0) + Number(wait[2] ?? 0));
    // At this height every compartment may go up at once: the model waits for nothing.
    expect(put.text('The model')).toContain('on surfacing');
    return plus(surfaced, greatest([hours, table]));
  },
  clearAt: (put) => {
    const surfaced = moment(put.text('Last surfacing'));
    if (!put.has('Time it takes')) return surfaced;
    const labels = [
      'Compartment that takes',
      'Its tension on',
      'At rest',
      'Tolerated at the',
      'Time it takes',
    ] as const;
    return plus(surfaced, fallMin(put, labels, 0.01));
  },
  minimumBar: (put) => {
    const litres = plus(put.value('One minute'), ...put.legs());
    const together = put.value('Together');
    expect(litres.from).toBeLessThanOrEqual(together.to);
    expect(litres.to).toBeGreaterThanOrEqual(together.from);
    const waterL = Number.parseFloat(put.text('Cylinder'));
    return greatest([
      put.text('Cylinder').includes('ideal')
        ? over(together, exactly(waterL))
        : realBar(put, together, waterL, 'Z at what that takes'),
      exactly(Number.parseFloat(put.text('Reserve'))),
    ]);
  },
  turnBar: (put) => {
    const fill = exactly(Number.parseFloat(put.text('Fill')));
    return minus(fill, times(minus(fill, put.value('Minimum gas')), put.percent('Share')));
  },
  endBar: (put) => {
    if (!put.has('Used')) return null;
    const waterL = expectContent(put);
    const left = minus(put.value('Content of'), put.value('Used'));
    expect(left.from).toBeLessThanOrEqual(put.value('Left').to);
    expect(left.to).toBeGreaterThanOrEqual(put.value('Left').from);
    return put.has('Z at what is left')
      ? realBar(put, put.value('Left'), waterL, 'Z at what is left')
      : over(put.value('Left'), exactly(waterL));
  },
  secondOpinion: (put) =>
    put.has('With ')
      ? plus(
          put.has('Residual') ? exactly(Number.parseFloat(put.text('Residual'))) : exactly(0),
          exactly(
            Math.ceil(
              Number(
                /With ([\d.]+) min/.exec(put.steps.find(({ label }) => label.startsWith('With '))!.label)![1],
              ) - 1e-9,
            ),
          ),
        )
      : null,
};

let compared = 0;

/** How often each figure was worked out. */
const shownOf = new Map<string, number>();

/** What stood before the comma of the steps it was worked out from. */
const labels = new Set<string>();

function expectByHand(trip: Trip): void {
  for (const diverLedger of ledger(trip).divers) {
    for (const entry of diverLedger.entries) {
      for (const figure of figuresOf(entry)) {
        const workings = workingsOf(figure, entry, { trip, diverLedger, words: fileWords });
        const work = figure.startsWith('levels.') ? noStop : BY_HAND[figure];
        // A figure that does not exist has nothing to be worked out from.
        if (work === undefined || workings.exact === null) continue;
        const said = `${figure} of ${entry.dive.id} for ${diverLedger.diver.id}: ${JSON.stringify(workings)}`;
        const shown = work(new Put(workings), workings);
        if (shown === null) continue;
        compared += 1;
        const dust = 1e-9 * Math.max(1, Math.abs(workings.exact));
        expect(workings.exact, said).toBeGreaterThanOrEqual(shown.from - dust);
        expect(workings.exact, said).toBeLessThanOrEqual(shown.to + dust);
        // And digits say it closely: within a hundredth of it, or of one; a moment to the second.
        const isMoment = figure === 'flyAfter' || figure === 'climbs' || figure === 'clearAt';
        const size = isMoment ? 1 : Math.max(1, Math.abs(workings.exact));
        expect(shown.to - shown.from, said).toBeLessThan(0.02 * size);
        shownOf.set(figure, (shownOf.get(figure) ?? 0) + 1);
        for (const { label } of workings.steps) labels.add(label.split(',')[0]!);
      }
    }
  }
}

describe('the numbers that workings show', () => {
  it('come to every figure of every entry of the demo trip', () => {
    expectByHand(demoTrip());
    const pass = { id: 'e', title: 'Pass', from: '2027-03-20T10:00', to: '2027-03-20T11:00', altitudeM: 900 };
    expectByHand({ ...demoTrip(), events: [pass] });
    expect(compared).toBeGreaterThan(22 * 3 * 18);
  });

  it('come to every figure of two hundred trips drawn by lot', () => {
    fc.assert(fc.property(trips({ dives: { min: 1, max: 2 }, party: { min: 1, max: 1 } }), expectByHand), {
      numRuns: 200,
    });
    // Real gas, and a cabin that a compartment waits for, among them.
    for (const label of ['Z at what is left', 'Z at what that takes', 'Time it waits', 'Time it takes']) {
      expect([...labels]).toContain(label);
    }
    // None is left to a comparison with the ledger alone: on some dive each was worked out.
    for (const figure of FIGURES) {
      expect(shownOf.get(figure) ?? 0, figure).toBeGreaterThan(0);
    }
  });
});
