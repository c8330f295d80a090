import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { roomOf } from '../../../../core/ledger/room';
import { wallMin } from '../../../../core/words/calendar';
import { writeTrip } from '../../../../core/document/write-trip';

const trip = demoTrip();
const whole = ledger(trip);

const rooms = whole.divers.flatMap((each) =>
  each.entries.map((entry) => ({
    diveId: entry.dive.id,
    diverId: each.diver.id,
    min: roomOf(trip, entry).min!,
  })),
);

describe('the demo trip', () => {
  it('is as it says: six diving days, 22 dives, four divers, six sites from 12 to 36 m, three mixes', () => {
    expect(new Set(trip.dives.map((dive) => dive.startsAt.slice(0, 10))).size).toBe(6);
    expect(trip.dives).toHaveLength(22);
    expect(trip.party).toHaveLength(4);
    expect(trip.sites.map((site) => site.depthM).toSorted((a, b) => a - b)).toEqual([12, 16, 21, 27, 30, 36]);
    expect(trip.mixes).toHaveLength(3);
    expect(trip.dives.some((dive) => dive.startsAt.slice(11) > '19:00')).toBe(true);
    expect(trip.dives.some((dive) => dive.legs !== undefined)).toBe(true);
  });

  it('uses every mix on board, and no dive is deeper than its site', () => {
    const used = new Set(whole.divers.flatMap((each) => each.entries.map((entry) => entry.mix?.id)));
    expect([...used].toSorted()).toEqual(trip.mixes.map((mix) => mix.id).toSorted());
    for (const dive of trip.dives) {
      expect(trip.sites.find((site) => site.id === dive.siteId)!.depthM).toBeGreaterThanOrEqual(dive.depthM);
    }
  });

  it('leaves nothing to change: no caution but what is good to know', () => {
    expect(cautionsOf(whole).filter((caution) => caution.severity !== 'know')).toEqual([]);
  });

  it('has one tight dive with three to six minutes of room, and more everywhere but on its day', () => {
    const tightest = rooms.toSorted((a, b) => a.min - b.min)[0]!;
    expect(tightest.diveId).toBe('d13');
    expect(tightest.diverId).toBe('guest2');
    expect(tightest.min).toBeGreaterThan(3);
    expect(tightest.min).toBeLessThan(6);
    expect(
      Math.min(...rooms.filter((room) => room.diveId !== 'd13').map((room) => room.min)),
    ).toBeGreaterThan(6);
  });

  it('leaves everybody clear to fly before the flight', () => {
    for (const each of whole.divers) expect(each.flyAfterMin!).toBeLessThan(wallMin(trip.flight!.at));
  });

  it('stands in the repository as the app would save it', () => {
    const file = readFileSync(new URL('../../../../core/document/demo-trip.json', import.meta.url), 'utf8');
    expect(file).toBe(writeTrip(trip));
  });
});
