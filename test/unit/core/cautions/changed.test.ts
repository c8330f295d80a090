import { describe, expect, it } from 'vitest';
import { changesBetween } from '../../../../core/cautions/changed';
import { demoTrip } from '../../../../core/document/demo-trip';
import { withLogged, withMissedBy, withRestAsPlanned } from '../../../../core/document/log';
import type { Dive, Trip } from '../../../../core/document/types';
import { divesAhead } from '../../../../core/ledger/ahead';
import { ledger } from '../../../../core/ledger/ledger';
import { roomMinutes } from '../../../../core/ledger/room';
import { fileWords } from '../../../../core/words/reader';

const plan = demoTrip();
const party = plan.party.map(({ id }) => id);

function reckoned(trip: Trip) {
  return {
    ledger: ledger(trip),
    roomOf: (entry: Parameters<typeof roomMinutes>[1]) => roomMinutes(trip, entry),
  };
}
function changes(after: Trip, before: Trip = plan) {
  return changesBetween(reckoned(before), reckoned(after), divesAhead(after, null));
}
const edited = (change: (dive: Dive, index: number) => Dive): Trip => ({
  ...plan,
  dives: plan.dives.map(change),
});
const said = (after: Trip) => changes(after).deeds.map(fileWords);

describe('changesBetween', () => {
  it('finds nothing in the same trip', () => {
    const { deeds, come, gone, dives, fly } = changes(plan);
    expect([deeds, come, gone]).toEqual([[], [], []]);
    expect(dives).toHaveLength(plan.dives.length);
    expect(dives.every(({ was, is }) => was?.min === is?.min && was !== null)).toBe(true);
    expect(fly.is).toEqual(fly.was);
  });

  it('tells each dive ahead with the least room before and after, and what is done no more', () => {
    // A dive that went longer leaves less for those after it.
    const after = edited((dive, at) =>
      at === 10 ? withLogged(dive, null, 'bottomMin', dive.bottomMin + 8, party) : dive,
    );
    const { dives, deeds } = changes(after);
    expect(dives.map(({ diveId }) => diveId)).toEqual(plan.dives.slice(11).map(({ id }) => id));
    const [second] = dives;
    const least = (trip: Trip) =>
      Math.min(
        ...ledger(trip).divers.flatMap(({ entries }) =>
          entries
            .filter(({ dive }) => dive.id === second!.diveId)
            .map((entry) => roomMinutes(trip, entry).min!),
        ),
      );
    expect(second!.was!.min).toBe(least(plan));
    expect(second!.is!.min).toBe(least(after));
    // More nitrogen leaves no later dive more room, and some of them less.
    expect(dives.every(({ was, is }) => is!.min! <= was!.min! + 1e-6)).toBe(true);
    expect(dives.some(({ was, is }) => is!.min! < was!.min! - 0.01)).toBe(true);
    expect(deeds.map(fileWords)).toEqual(['Logged: one dive otherwise.']);
  });

  it('tells which cautions came and went, and only of what lies ahead', () => {
    const longer = edited((dive, at) => (at === 12 ? { ...dive, bottomMin: dive.bottomMin + 25 } : dive));
    const come = changes(longer);
    expect(
      come.come.some(({ code, diveId }) => code === 'past-no-stop' && diveId === plan.dives[12]!.id),
    ).toBe(true);
    const back = changes(plan, longer);
    expect(back.gone.map(({ code }) => code)).toEqual(come.come.map(({ code }) => code));
    const dived = edited((dive, at) =>
      at === 12 ? withLogged(dive, null, 'bottomMin', dive.bottomMin + 25, party) : dive,
    );
    expect(changes(dived).come.some(({ diveId }) => diveId === plan.dives[12]!.id)).toBe(false);
  });

  it('says what was logged, who missed what, and what was added', () => {
    const [first, second, third] = plan.dives;
    const name = plan.party[1]!.name;
    const after = {
      ...edited((dive) =>
        dive === first || dive === second
          ? withRestAsPlanned(dive, party)
          : dive === third
            ? withMissedBy(withRestAsPlanned(dive, party), party[1]!, 'ear', party)
            : dive,
      ),
    };
    const [sentence] = said(after);
    expect(sentence).toContain('Logged: three dives as planned');
    expect(sentence).toContain(`without ${name}`);
    const nobody = said(edited((dive) => (dive === first ? withMissedBy(dive, null, 'swell', party) : dive)));
    expect(nobody[0]).toContain('nobody');
    const added: Dive = { ...first!, id: 'extra', startsAt: '2027-03-14T12:00', added: true, asDived: [{}] };
    expect(said({ ...plan, dives: [first!, added, ...plan.dives.slice(1)] })).toEqual([
      'Logged: one dive that had not been planned.',
    ]);
  });

  it('says what was done to the plan: rates, moves, mixes, dives that came and went', () => {
    const [guide, ...others] = plan.party;
    const rates = [{ from: '2027-03-16', surfaceRateLpm: 14 }];
    const [sentence] = said({ ...plan, party: [{ ...guide!, rates }, ...others] });
    expect(sentence).toMatch(/^Guide is planned with 14 L\/min from .*16.*, not 12 L\/min\.$/);
    const last = plan.dives.at(-1)!;
    const [moved] = said(edited((dive) => (dive === last ? { ...dive, depthM: 12, bottomMin: 50 } : dive)));
    expect(moved).toMatch(/12 m, not \d+ m, 50 min, not \d+ min/);
    const fewer = changes({ ...plan, dives: plan.dives.slice(0, -1) });
    expect(fewer.dives.at(-1)).toMatchObject({ diveId: last.id, is: null });
    expect(fileWords(fewer.deeds[0]!)).toContain('is gone');
    expect(fewer.fly.is!.atMin).toBeLessThan(fewer.fly.was!.atMin);
  });
});
