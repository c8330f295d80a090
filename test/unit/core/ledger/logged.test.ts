import { describe, expect, it } from 'vitest';
import { ledger } from '../../../../core/ledger/ledger';
import type { Dive, Diver } from '../../../../core/document/types';
import { readTrip } from '../../../../core/document/read-trip';
import { writeTrip } from '../../../../core/document/write-trip';
import { checkTrip } from '../../../../core/document/check-trip';
import { ledgerDocument } from '../../../../core/formats/ledger-document';
import { gasUsedL } from '../../../../core/supply';
import { workingsOf } from '../../../../core/workings/all';
import { fileWords } from '../../../../core/words/reader';
import { fixtureText } from '../../../support/trip-documents';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

const ada = aDiver({
  id: 'ada',
  name: 'Guide',
  surfaceRateLpm: 15,
  cylinder: { waterL: 12, fillBar: 200, reserveBar: 50 },
});
const bob = { ...ada, id: 'bob', name: 'Guest 1' };

function entriesOf(dives: readonly Dive[], party: readonly Diver[] = [ada, bob]) {
  const trip = aTrip(dives, { party });
  expect(checkTrip(trip)).toEqual([]);
  return ledger(trip).divers.map(({ entries }) => entries);
}

const states = ([entry]: readonly { isAsDived: boolean; isAsPlanned: boolean }[]) =>
  entry && [entry.isAsDived, entry.isAsPlanned];

describe('a dive that was logged', () => {
  it('is as planned with no overrides, otherwise with any that differs, and ahead with an analysis alone', () => {
    const of = (asDived: NonNullable<Dive['asDived']>) => entriesOf([aDive({ asDived })]).map(states);
    expect(of([{}])).toEqual([
      [true, true],
      [true, true],
    ]);
    expect(of([{ by: 'bob' }])).toEqual([
      [false, false],
      [true, true],
    ]);
    expect(of([{ endBar: 80 }, { by: 'bob', depthM: 21 }])).toEqual([
      [true, true],
      [true, false],
    ]);
    expect(of([{ o2: 0.21 }, { by: 'bob', startsAt: '2027-03-06T08:04', o2: 0.21 }])).toEqual([
      [false, false],
      [true, false],
    ]);
    expect(of([{}, { by: 'bob', o2: 0.22 }])).toEqual([
      [true, true],
      [true, true],
    ]);
  });

  it('keeps every figure of the plan where it was as planned', () => {
    const legs = [
      { depthM: 24, min: 10 },
      { depthM: 12, min: 20 },
    ];
    const plan = aDive({ id: 'd', depthM: 24, bottomMin: 30, legs });
    const firstOf = (dive: Dive) => entriesOf([dive])[0]![0]!;
    const planned = firstOf(plan);
    const dived = firstOf({ ...plan, asDived: [{}] });
    for (const figure of [
      'noStopMin',
      'tensionsBefore',
      'legs',
      'cns',
      'otu',
      'gas',
      'levels',
      'stops',
    ] as const) {
      expect(dived[figure], figure).toEqual(planned[figure]);
    }
    expect(dived.after.tensions).toEqual(planned.after.tensions);
  });
});

describe('a dive that was missed', () => {
  const first = aDive({ id: 'first', startsAt: '2027-03-06T08:00', depthM: 26, bottomMin: 20 });
  const second = aDive({ id: 'second', startsAt: '2027-03-06T10:00', depthM: 22, bottomMin: 20 });
  const third = aDive({ id: 'third', startsAt: '2027-03-06T12:00', depthM: 18, bottomMin: 20 });

  it('leaves the ledger of who missed it, as if it had not been planned for them', () => {
    const [mine, theirs] = entriesOf([first, { ...second, notDived: [{ by: 'bob', reason: 'ear' }] }, third]);
    const [whole, without] = entriesOf([first, { ...second, divers: ['ada'] }, third]);
    expect(mine!.map(({ dive }) => dive.id)).toEqual(['first', 'second', 'third']);
    expect(theirs!.map(({ dive }) => dive.id)).toEqual(['first', 'third']);
    expect(theirs!.at(-1)!.after.tensions).toEqual(without!.at(-1)!.after.tensions);
    expect(theirs!.at(-1)!.intervalMin).toBe(without!.at(-1)!.intervalMin);
    expect(mine!.at(-1)!.after.tensions).toEqual(whole!.at(-1)!.after.tensions);
  });

  it('is nobody’s where all missed it, and its time is free', () => {
    const over = { ...second, startsAt: '2027-03-06T08:05', notDived: [{ reason: 'swell' }] };
    const [mine, theirs] = entriesOf([first, over, third]);
    expect([mine, theirs].map((each) => each!.map(({ dive }) => dive.id))).toEqual([
      ['first', 'third'],
      ['first', 'third'],
    ]);
  });

  it('is told in the ledger file with its reason', () => {
    const trip = aTrip(
      [first, { ...second, notDived: [{ by: 'bob', reason: 'ear' }] }, { ...third, notDived: [{}] }],
      {
        party: [ada, bob],
      },
    );
    const { divers } = ledgerDocument(ledger(trip), []);
    expect(divers.map(({ notDived }) => notDived)).toEqual([
      [{ diveId: 'third', reason: '' }],
      [
        { diveId: 'second', reason: 'ear' },
        { diveId: 'third', reason: '' },
      ],
    ]);
  });
});

describe('the gas of a dive', () => {
  const dive = aDive({ id: 'd', depthM: 20, bottomMin: 30 });

  it('is what the gauge told, and gives the rate that was breathed over every leg', () => {
    const entry = entriesOf([{ ...dive, asDived: [{ by: 'ada', endBar: 64 }] }])[0]![0]!;
    expect(entry.gas.endBar).toBe(64);
    expect(entry.gas.usedL).toBe(12 * (200 - 64));
    expect(gasUsedL(entry.legs, entry.gas.breathedLpm!)).toBeCloseTo(12 * (200 - 64), 9);
    // At the rate that was read too: descent and level come before the bottom is left.
    const toLeaving = entry.legs.slice(0, 2);
    expect(toLeaving.map(({ kind }) => kind)).toEqual(['descent', 'level']);
    expect(entry.gas.usedAtLeavingL).toBeCloseTo(gasUsedL(toLeaving, entry.gas.breathedLpm!), 9);
  });

  it('gives no rate without a gauge, and none where only the deepest of several levels is known', () => {
    const legs = [
      { depthM: 24, min: 10 },
      { depthM: 12, min: 20 },
    ];
    const levels = aDive({ depthM: 24, bottomMin: 30, legs });
    const breathed = (of: Dive) => entriesOf([of])[0]![0]!.gas.breathedLpm;
    expect(breathed({ ...dive, asDived: [{}] })).toBeNull();
    expect(breathed({ ...dive, asDived: [{ endBar: 200 }] })).toBeNull();
    expect(breathed({ ...levels, asDived: [{ endBar: 90 }] })).toBeGreaterThan(0);
    expect(breathed({ ...levels, asDived: [{ endBar: 90, bottomMin: 28 }] })).toBeNull();
  });

  it('has workings that come to what the ledger says', () => {
    const trip = aTrip([{ ...dive, asDived: [{ endBar: 64 }] }], { party: [ada] });
    const whole = ledger(trip);
    const [diverLedger] = whole.divers;
    const [entry] = diverLedger!.entries;
    const context = { trip, diverLedger: diverLedger!, words: fileWords };
    expect(workingsOf('usedL', entry!, context).exact).toBe(entry!.gas.usedL);
    expect(workingsOf('endBar', entry!, context)).toMatchObject({ exact: 64, formula: 'as read' });
  });
});

describe('a gas rate with a day', () => {
  const days = ['06', '07', '08'].map((day) =>
    aDive({ id: `d${day}`, startsAt: `2027-03-${day}T08:00`, depthM: 20, bottomMin: 30 }),
  );

  it('holds from its day on and is never applied backwards', () => {
    const later = {
      ...ada,
      rates: [
        { from: '2027-03-07', surfaceRateLpm: 18 },
        { from: '2027-03-08', surfaceRateLpm: 12 },
      ],
    };
    const used = (diver: Diver) => entriesOf(days, [diver])[0]!.map(({ gas }) => gas.usedL);
    const at = (surfaceRateLpm: number) => used({ ...ada, surfaceRateLpm });
    expect(used(later)).toEqual([at(15)[0], at(18)[1], at(12)[2]]);
    expect(entriesOf(days, [later])[0]!.map(({ diver }) => diver.surfaceRateLpm)).toEqual([15, 18, 12]);
  });
});

describe('a file of version 3', () => {
  it('comes back letter by letter, with all that was logged and what it does not know', () => {
    const text = fixtureText('v3-full');
    const result = readTrip(text);
    if (!result.ok) throw new Error(JSON.stringify(result.troubles));
    const again = readTrip(writeTrip(result.value));
    expect(again).toEqual(result);
    expect(JSON.parse(writeTrip(result.value))).toEqual(JSON.parse(text));
  });
});
