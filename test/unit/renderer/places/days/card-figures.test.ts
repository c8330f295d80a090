import { describe, expect, it } from 'vitest';
import type { Trip } from '../../../../../core/document/types';
import { ledger } from '../../../../../core/ledger/ledger';
import { roomOf } from '../../../../../core/ledger/room';
import { secondOpinions } from '../../../../../core/ledger/second-opinion';
import { pageReader, wordsOf, type Language } from '../../../../../core/words/reader';
import { said } from '../../../../../core/words/said';
import {
  groupsOf,
  heroOf,
  levelRowsOf,
  type CardSource,
} from '../../../../../renderer/places/days/card/card-figures';
import { aDive, aDiver, aTrip } from '../../../../builders/trip';
import type { Sample } from '../../../../support/recorded';

function source(trip: Trip): CardSource {
  const [own] = ledger(trip).divers;
  const entry = own!.entries[0]!;
  const [opinion] = secondOpinions(own!, trip);
  return { entry, room: roomOf(trip, entry), opinion: opinion! };
}

const words = wordsOf(pageReader('metric'));
const hero = (trip: Trip): readonly string[] =>
  heroOf(source(trip)).map(({ label, value, aside }) => words(said`${label}: ${value}, ${aside}`));

describe('the three figures at the head of the card', () => {
  it('say what they are held against', () => {
    expect(hero(aTrip([aDive()]))).toEqual([
      expect.stringMatching(/^No-stop time: \d+ min, at 20 m$/),
      expect.stringMatching(/^Room: \d+ min, to (the no-stop limit|minimum gas)$/),
      expect.stringMatching(/^Pressure left: \d+ bar, of 230, reserve 50$/),
    ]);
  });

  it('say by how much a limit is passed, never a room below zero', () => {
    const past = heroOf(source(aTrip([aDive({ depthM: 30, bottomMin: 40 })])));
    expect(words(past[1]!.label)).toBe('Over by');
    expect(words(said`${past[1]!.value}`)).toMatch(/^\d+ min$/);
    expect(past.map(({ isPast }) => isPast).slice(0, 2)).toEqual([true, true]);
  });
});

describe('the deepest that a dive could be', () => {
  it('says of a limit that no shallower dive keeps no more than that: deeper a no-stop limit may be kept', () => {
    const party = [aDiver({ cylinder: { waterL: 12, fillBar: 200, reserveBar: 50 } })];
    const rows = groupsOf(source(aTrip([aDive({ depthM: 9, bottomMin: 300 })], { party }))).flatMap(
      (group) => group.rows,
    );
    const deepest = rows.find(({ label }) => words(label) === 'Deepest')!;
    expect(words(said`${deepest.value}: ${deepest.aside}`)).toMatch(/^–: past .*, shallower too$/);
  });
});

describe('another language', () => {
  const greek: Language = (text) =>
    text.replaceAll(/\{\d+\}|[A-Za-z]/g, (sign) => (sign.startsWith('{') ? sign : 'λ'));
  const foreign = wordsOf(pageReader('metric', greek));

  it('is a reader of the card: no English is left on it', () => {
    const legs = [
      { depthM: 36, min: 20 },
      { depthM: 14, min: 30 },
    ];
    for (const dive of [
      aDive(),
      aDive({ depthM: 45, bottomMin: 40, mix: 'rich' }),
      aDive({ depthM: 36, bottomMin: 50, legs }),
    ]) {
      const of = source(aTrip([dive], { party: [aDiver({ maxDepthM: 20 })] }));
      const texts = [
        ...heroOf(of).map(({ label, value, aside }) => foreign(said`${label} ${value} ${aside}`)),
        ...levelRowsOf(of).map((row) => foreign(said`${row.label} ${row.time} ${row.noStop} ${row.left}`)),
        ...groupsOf(of).flatMap(({ name, rows }) => [
          foreign(name),
          ...rows.map(({ label, value, aside }) => foreign(said`${label} ${value} ${aside}`)),
        ]),
      ];
      expect(texts.length).toBeGreaterThan(12);
      for (const text of texts) {
        expect(
          (text.match(/[A-Za-z]+/g) ?? []).filter((word) => !['m', 'min', 'bar', 'g', 'L'].includes(word)),
        ).toEqual([]);
      }
    }
  });
});

describe('the levels of the card', () => {
  const rows = (trip: Trip): readonly string[] =>
    levelRowsOf(source(trip)).map(({ label, time }) => words(said`${label}, ${time}`));

  it('are those of the plan, and of a recorded dive the deepest stay and the whole', () => {
    const legs = [
      { depthM: 30, min: 10 },
      { depthM: 12, min: 30 },
    ];
    const plan = { depthM: 30, bottomMin: 40, legs };
    expect(rows(aTrip([aDive(plan)]))).toEqual(['30 m, 10 min', '12 m, 30 min', 'Whole time, 40 min']);
    const samples: readonly Sample[] = [
      [0, 0],
      [3, 30],
      [10, 30],
      [14, 12],
      [40, 10],
      [46, 0],
    ];
    const told = rows(aTrip([aDive({ ...plan, asDived: [{ samples }] })]));
    expect(told).toHaveLength(2);
    expect(told[0]).toMatch(/^30(\.0)? m, 10/);
    expect(told[1]).toMatch(/^Whole time, /);
  });
});
