import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fileWords } from '../../../../core/words/reader';
import { secondOpinions } from '../../../../core/ledger/second-opinion';
import { highTrip } from '../../../../core/document/high-trip';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { DiverLedger, Entry } from '../../../../core/ledger/ledger-types';
import { roomOf } from '../../../../core/ledger/room';
import type { Trip } from '../../../../core/document/types';
import { figuresOf, workingsOf } from '../../../../core/workings/all';
import { FIGURES, type FigureId } from '../../../../core/workings/types';
import { aDive, aDiver, aTrip, RICH } from '../../../builders/trip';
import { trips } from '../../../support/trip-arbitrary';

/** The workings add legs one by one where the ledger sums them at once: rounding alone. */
const SAME = 1e-9;

/** What the ledger says of each figure. */
function figuresIn(
  trip: Trip,
  diverLedger: DiverLedger,
  entry: Entry,
): Readonly<Record<FigureId, number | null>> {
  const room = roomOf(trip, entry);
  const opinion = secondOpinions(diverLedger, trip)[diverLedger.entries.indexOf(entry)]!;
  return {
    noStopMin: entry.noStopMin,
    stops: entry.stops === null ? null : entry.stops.reduce((sum, stop) => sum + stop.min, 0),
    leading: entry.leading.fractionOfLimit,
    'room.min': room.min,
    'room.m': room.m,
    earlierMin: room.earlierMin,
    interval: entry.intervalMin,
    modM: entry.modM,
    po2Bar: entry.po2Bar,
    eadM: entry.eadM,
    gasDensityGL: entry.gasDensityGL,
    'cns.before': entry.cns.before,
    'cns.after': entry.cns.after,
    'cns.day': entry.cns.day,
    'otu.dive': entry.otu.dive,
    'otu.day': entry.otu.day,
    'otu.trip': entry.otu.trip,
    'esot.dive': entry.esot.dive,
    'esot.day': entry.esot.day,
    usedL: entry.gas.usedL,
    // What is left of a loop is its scrubber.
    endBar: entry.loop?.scrubber.leftMin ?? entry.gas.endBar,
    minimumBar: entry.gas.minimumBar,
    turnBar: entry.gas.turnBar,
    flyAfter: diverLedger.flyAfterMin,
    climbs: diverLedger.climbs.at(-1)?.clearMin ?? null,
    clearAt: diverLedger.clearAtMin,
    secondOpinion: opinion.equivalentMin,
    ...Object.fromEntries(entry.levels.map(({ noStopMin }, i) => [`levels.${i}`, noStopMin])),
  };
}

/** What has no workings of its own on a loop yet. */
const NOT_ON_LOOPS = ['stops', 'room.m', 'earlierMin', 'modM', 'eadM', 'minimumBar', 'turnBar', 'levels.N'];

function expectAll(trip: Trip): void {
  for (const diverLedger of ledger(trip).divers) {
    for (const entry of diverLedger.entries) {
      const figures = figuresIn(trip, diverLedger, entry);
      for (const figure of figuresOf(entry)) {
        const workings = workingsOf(figure, entry, { trip, diverLedger, words: fileWords });
        const said = `${figure} of ${entry.dive.id} for ${diverLedger.diver.id}`;
        expect(workings.source, said).not.toBe('');
        const labels = workings.steps.map((step) => step.label);
        expect(new Set(labels).size, said).toBe(labels.length);
        expect(workings.result, said).not.toMatch(/NaN|Infinity|undefined/);
        for (const { label, value } of workings.steps)
          expect(`${label} ${value}`, said).not.toMatch(/NaN|Infinity|undefined/);
        const figureIs = figures[figure];
        if (workings.result === 'not worked out here on a loop') {
          expect(NOT_ON_LOOPS, said).toContain(figure.replace(/\d+/, 'N'));
          continue;
        }
        if (figureIs === undefined) throw new Error(`nothing is known of ${said}`);
        if (figureIs === null) expect(workings.exact, said).toBeNull();
        else
          expect(Math.abs(workings.exact! - figureIs), said).toBeLessThan(
            SAME * Math.max(1, Math.abs(figureIs)),
          );
      }
    }
  }
}

describe('workingsOf', () => {
  it('comes to the figure of the ledger, for every figure of the demo trip', () => {
    expectAll(demoTrip());
  });

  it('does so in several waters and at several heights', () => {
    expectAll(highTrip());
  });

  it('does so in fresh water at altitude, on levels, after earlier dives and a climb, with real gas', () => {
    const before = [
      { id: 'b1', startsAt: '2027-03-05T09:00', depthM: 22, bottomMin: 40, mix: 'air' as const },
      { id: 'b2', startsAt: '2027-03-05T14:00', depthM: 18, bottomMin: 40, mix: 'rich' as const },
    ];
    const legs = [
      { depthM: 28, min: 10 },
      { depthM: 12, min: 15 },
      { depthM: 28, min: 10 },
      { depthM: 12, min: 15 },
    ];
    const dives = [
      aDive({ depthM: 28, bottomMin: 50, legs, mix: 'rich' }),
      aDive({ startsAt: '2027-03-06T11:00', turnShare: 0.33, safetyStop: null }),
      aDive({ startsAt: '2027-03-06T15:00', depthM: 9, bottomMin: 50, mix: 'rich' }),
    ];
    const water = { density: 'fresh' as const, altitudeM: 1500 };
    const settings = {
      descentMPerMin: 15,
      ascentMPerMin: 9,
      gasLaw: 'real' as const,
      analysisTolerance: 0.01,
    };
    const party = [aDiver({ before, arrivedAt: '2027-03-05T20:00' })];
    expectAll(aTrip(dives, { water, settings, party }));
  });

  it('names each level that is past its limit once, where two lie at one depth', () => {
    const legs = [
      { depthM: 44.996, min: 12 },
      { depthM: 45, min: 1 },
      { depthM: 5, min: 8 },
    ];
    const trip = aTrip([aDive({ depthM: 45, bottomMin: 21, legs })]);
    const [diverLedger] = ledger(trip).divers;
    const [entry] = diverLedger!.entries;
    expect(entry!.levelsPastLimitM).toEqual([44.996, 45]);
    const { steps } = workingsOf('room.min', entry!, { trip, diverLedger: diverLedger!, words: fileWords });
    const past = steps.filter(({ value }) => value === 'past its no-stop limit');
    expect(past.map(({ label }) => label)).toEqual(['Level at 45.00 m']);
    expectAll(trip);
  });

  it('says of a dive past its no-stop limit that no depth counts below the one planned', () => {
    const legs = [
      { depthM: 25, min: 32 },
      { depthM: 4, min: 5 },
    ];
    const dives = [
      aDive({ startsAt: '2027-03-06T08:15', depthM: 25, bottomMin: 37, legs }),
      aDive({ startsAt: '2027-03-06T09:19', depthM: 3, bottomMin: 1, safetyStop: null }),
    ];
    const trip = aTrip(dives, { party: [aDiver({ gradient: { low: 0.2, high: 0.36 } })] });
    const [diverLedger] = ledger(trip).divers;
    const asked = { trip, diverLedger: diverLedger!, words: fileWords };
    expect(workingsOf('room.m', diverLedger!.entries[1]!, asked)).toMatchObject({
      exact: null,
      result:
        'no figure: past the no-stop limit at every depth such a dive can have that is no deeper than planned',
    });
  });

  it('works out the limit of each level by itself, and the whole time only with several', () => {
    const legs = [
      { depthM: 30, min: 8 },
      { depthM: 18, min: 12 },
      { depthM: 5, min: 10 },
    ];
    const trip = aTrip([aDive({ depthM: 30, bottomMin: 30, legs }), aDive({ startsAt: '2027-03-06T12:00' })]);
    const [diverLedger] = ledger(trip).divers;
    const [levelled, square] = diverLedger!.entries;
    const of = (figure: FigureId, entry: Entry) =>
      workingsOf(figure, entry, { trip, diverLedger: diverLedger!, words: fileWords });
    expect(figuresOf(levelled!).slice(0, 4)).toEqual(['levels.0', 'levels.1', 'levels.2', 'noStopMin']);
    expect(figuresOf(square!)).toEqual(FIGURES);
    expect(of('levels.1', levelled!).title).toBe('No-stop limit of level 2, at 18.00 m');
    expect(of('levels.1', levelled!).steps).toContainEqual({
      label: 'Way from the level before',
      value: '1.333 min',
    });
    expect(of('levels.2', levelled!)).toMatchObject({ result: 'unlimited', exact: null });
    expect(of('noStopMin', levelled!).title).toBe('Whole time with the last level lengthened');
    expect(of('noStopMin', square!).title).toBe('No-stop limit');
  });

  it('does so where limits are passed: stops, no gas, too much oxygen, the 24 h clock', () => {
    const small = { waterL: 10, fillBar: 200, reserveBar: 50 };
    const past = [
      aDive({ depthM: 30, bottomMin: 45 }),
      aDive({ startsAt: '2027-03-06T11:00', depthM: 32, bottomMin: 25, mix: 'rich' }),
      aDive({ startsAt: '2027-03-06T13:00', depthM: 40, bottomMin: 12 }),
    ];
    expectAll(
      aTrip(past, { party: [aDiver({ cylinder: small }), aDiver({ id: 'guest-2', maxDepthM: 20 })] }),
    );
    expectAll(aTrip([aDive({ depthM: 36, mix: 'rich' }), aDive({ startsAt: '2027-03-06T12:00' })]));
    const long = ['08:00', '12:00', '16:00'].map((time) =>
      aDive({ depthM: 28, mix: 'rich', bottomMin: 70, startsAt: `2027-03-06T${time}` }),
    );
    expectAll(
      aTrip([...long, aDive({ startsAt: '2027-03-07T08:30', depthM: 28, mix: 'rich', bottomMin: 60 })]),
    );
  });

  it('does so where the CNS clock is what the interval is needed for', () => {
    const mixes = [{ ...RICH, id: 'air', o2: 0.5 }];
    const long = { depthM: 17, bottomMin: 90 };
    const trip = aTrip([aDive(long), aDive({ ...long, startsAt: '2027-03-06T11:00' })], {
      mixes,
      party: [aDiver({ maxO2: 0.5, cylinder: { waterL: 60, fillBar: 230, reserveBar: 20 } })],
    });
    const diverLedger = ledger(trip).divers[0]!;
    expect(roomOf(trip, diverLedger.entries[1]!).earlierLimit).toBe('cns');
    expectAll(trip);
  });

  it('does so for any trip', () => {
    fc.assert(fc.property(trips({ dives: { min: 1, max: 4 }, party: { min: 1, max: 1 } }), expectAll), {
      numRuns: 40,
    });
  });

  it('says that a dive no mix reaches is left out', () => {
    const trip = aTrip([aDive({ depthM: 38, mix: 'auto' })], { mixes: [RICH] });
    const diverLedger = ledger(trip).divers[0]!;
    const workings = workingsOf('modM', diverLedger.entries[0]!, { trip, diverLedger, words: fileWords });
    expect(workings).toMatchObject({ exact: null, result: 'none' });
    expect(workings.steps[0]!.value).toContain('left out');
  });
});

describe('what a reader sets in their own way', () => {
  const trip = demoTrip();
  const all = ledger(trip).divers.flatMap((diverLedger) =>
    diverLedger.entries.flatMap((entry) =>
      FIGURES.map((figure) =>
        workingsOf(figure, entry, { trip, diverLedger, words: (said) => `[${fileWords(said)}]` }),
      ),
    ),
  );
  const texts = all.flatMap(({ title, formula, steps, result }) => [
    title,
    formula,
    result,
    ...steps.flatMap(({ label, value }) => [label, value]),
  ]);

  it('has a point between digits in numbers alone', () => {
    const pointed = texts.flatMap((text) => text.match(/[\d.]*\d\.\d[\d.]*/g) ?? []);
    expect(pointed.length).toBeGreaterThan(1000);
    for (const each of new Set(pointed)) expect(each).toMatch(/^\d+\.\d+$/);
  });

  it('puts every moment into the words of the reader', () => {
    expect(all.find(({ figure }) => figure === 'flyAfter')!.result).toMatch(
      /^\[\d{4}-\d\d-\d\d at \d\d:\d\d\]$/,
    );
    const outside = texts.map((text) => text.replaceAll(/\[[^\]]*\]/g, ''));
    for (const text of outside) expect(text).not.toMatch(/\d{4}-\d\d-\d\d|\d\d:\d\d/);
  });
});

/** Numbers of a step's text, in order. */
function numbers(text: string): readonly number[] {
  return (text.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);
}

describe('the numbers put in', () => {
  const trip = aTrip([
    aDive({ depthM: 25, bottomMin: 25, mix: 'lean' }),
    aDive({ startsAt: '2027-03-06T11:00', mix: 'rich' }),
  ]);
  const diverLedger = ledger(trip).divers[0]!;
  const workings = (figure: FigureId, index = 1) =>
    workingsOf(figure, diverLedger.entries[index]!, { trip, diverLedger, words: fileWords });
  const value = (figure: FigureId, label: string, index = 1) => {
    const step = workings(figure, index).steps.find((each) => each.label.includes(label));
    expect(step, `${figure}: ${label}`).toBeDefined();
    return numbers(step!.value);
  };

  // Each as a person would do it on a calculator, with the digits that are shown.
  it('give the no-stop limit by its formula', () => {
    const [p] = value('noStopMin', ', p');
    const [l] = value('noStopMin', ', L');
    const [i] = value('noStopMin', 'Inspired');
    const [arrival] = value('noStopMin', 'Arrival');
    const [, halfTime] = value('noStopMin', 'Compartment');
    const [stay] = value('noStopMin', 'Time at the level');
    // What is shown adds up to what is shown.
    expect((arrival! + stay!).toFixed(2)).toBe(numbers(workings('noStopMin').result)[0]!.toFixed(2));
    const t = arrival! + (Math.log(1 + (l! - p!) / (i! - l!)) * halfTime!) / Math.LN2;
    expect(Math.abs(t - diverLedger.entries[1]!.noStopMin!)).toBeLessThan(0.05);
  });

  it('give the MOD, the PO2 and the EAD by theirs', () => {
    const [o2] = value('modM', 'Oxygen');
    const [limit] = value('modM', 'Working');
    const [p0] = value('modM', 'P0');
    const [w] = value('modM', ', w');
    const entry = diverLedger.entries[1]!;
    expect((limit! / (o2! / 100) - p0!) / w!).toBeCloseTo(entry.modM!, 2);
    const ambientBar = value('po2Bar', 'Ambient')[0]!;
    expect((o2! / 100) * ambientBar).toBeCloseTo(entry.po2Bar!, 3);
    const [n2] = value('eadM', 'Nitrogen');
    expect(((ambientBar * n2!) / 100 / 0.79 - p0!) / w!).toBeCloseTo(entry.eadM!, 2);
  });

  it('give the CNS clock by addition, and its rest by halving', () => {
    const steps = workings('cns.after').steps.slice(1);
    const sum = steps.reduce((total, step) => total + numbers(step.value).at(-1)!, 0);
    expect(sum).toBeCloseTo(diverLedger.entries[1]!.cns.after! * 100, 1);
    const [after] = value('cns.before', 'After');
    const [since] = value('cns.before', 'surface');
    expect(after! * 2 ** (-since! / 90)).toBeCloseTo(diverLedger.entries[1]!.cns.before! * 100, 1);
  });

  it.each(['usedL', 'otu.dive', 'esot.dive'] as const)('give %s by addition of the legs', (figure) => {
    const { steps, exact } = workings(figure);
    const sum = steps.slice(1).reduce((total, step) => total + numbers(step.value).at(-1)!, 0);
    // Each leg is shown a digit finer than the sum: a hundredth of a litre, a thousandth of a unit.
    expect(Math.abs(sum - exact!)).toBeLessThan((figure === 'usedL' ? 0.005 : 0.0005) * steps.length);
    expect(steps.length).toBeGreaterThan(3);
  });

  it('give the stops by addition, and when the nitrogen is given off', () => {
    const past = aTrip([aDive({ depthM: 30, bottomMin: 45 })]);
    const its = ledger(past).divers[0]!;
    const { steps, exact } = workingsOf('stops', its.entries[0]!, {
      trip: past,
      diverLedger: its,
      words: fileWords,
    });
    const stops = steps.slice(2).map((step) => numbers(step.value)[0]!);
    expect(stops).toEqual(its.entries[0]!.stops!.map((stop) => stop.min));
    expect(exact).toBe(stops.reduce((sum, min) => sum + min, 0));
    const clear = workingsOf('clearAt', its.entries[0]!, {
      trip: past,
      diverLedger: its,
      words: fileWords,
    }).steps;
    const [p, rest, tolerated, min] = clear.slice(2).map((step) => numbers(step.value)[0]!);
    const [, halfTime] = numbers(clear[1]!.value);
    const byHand = (Math.log((p! - rest!) / (0.01 * (tolerated! - rest!))) * halfTime!) / Math.LN2;
    expect(Math.abs(byHand - min!)).toBeLessThan(2);
  });

  it('give the minimum gas by addition', () => {
    const { steps } = workings('minimumBar');
    const together = steps.findIndex((step) => step.label === 'Together');
    const sum = steps.slice(1, together).reduce((total, step) => total + numbers(step.value).at(-1)!, 0);
    expect(numbers(steps[together]!.value)[0]).toBeCloseTo(sum, 0);
    const rateLpm = numbers(steps[0]!.value)[0]!;
    const [, ambientBar] = numbers(steps[1]!.label);
    expect(rateLpm * ambientBar!).toBeCloseTo(numbers(steps[1]!.value)[0]!, 0);
    expect(Math.max(sum / 24, 50)).toBeCloseTo(diverLedger.entries[1]!.gas.minimumBar!, 1);
  });

  it('give the pressure left', () => {
    const [content] = value('endBar', 'Content');
    const [used] = value('endBar', 'Used');
    expect((content! - used!) / 24).toBeCloseTo(diverLedger.entries[1]!.gas.endBar!, 1);
  });

  it('give the earliest start', () => {
    const tight = aTrip([
      aDive({ depthM: 30, bottomMin: 13 }),
      aDive({ depthM: 30, bottomMin: 12, startsAt: '2027-03-06T10:30' }),
    ]);
    const its = ledger(tight).divers[0]!;
    const { steps, exact } = workingsOf('earlierMin', its.entries[1]!, {
      trip: tight,
      diverLedger: its,
      words: fileWords,
    });
    const of = (label: string) => numbers(steps.find((step) => step.label.includes(label))!.value);
    const [interval] = of('Interval before');
    const [p] = of(', p');
    const [q] = of(', q');
    const [air] = of('A = ');
    const [, halfTime] = of('Compartment');
    const neededMin = (Math.log((p! - air!) / (q! - air!)) * halfTime!) / Math.LN2;
    expect(Math.abs(interval! - neededMin - exact!)).toBeLessThan(0.2);
  });
});
