import { beforeEach, describe, expect, it } from 'vitest';
import { diveDates } from '../../../../core/mixes/shares';
import { checkTrip } from '../../../../core/document/check-trip';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { undoStep } from '../../../../renderer/actions/history';
import {
  addMix,
  putOnBoard,
  removeMix,
  setMixAnalysis,
  setMixPrice,
  setMixShare,
} from '../../../../renderer/actions/mixes';
import { desk, freshDesk } from '../../../../renderer/store/store';

const mixes = () => desk.getState().trip.mixes;

beforeEach(() => {
  desk.setState(freshDesk(demoTrip()), true);
});

describe('the mixes on board', () => {
  it('gain one with an id of its own, priced between its neighbours', () => {
    expect(addMix(0.3).ok).toBe(true);
    const added = mixes().at(-1)!;
    expect(added.o2).toBe(0.3);
    const prices = mixes()
      .filter(({ o2 }) => o2 === 0.28 || o2 === 0.32)
      .map((mix) => mix.costPerFill);
    expect(added.costPerFill).toBeGreaterThan(Math.min(...prices));
    expect(added.costPerFill).toBeLessThan(Math.max(...prices));
    addMix(0.304);
    expect(new Set(mixes().map(({ id }) => id)).size).toBe(mixes().length);
  });

  it('refuse a share that is there, whatever was analysed or paid, and leave one that a file has twice', () => {
    const [air, lean, rich] = mixes();
    setMixAnalysis(rich!.id, 0.31);
    setMixPrice(rich!.id, 99);
    const before = mixes();
    for (const result of [addMix(0.32), setMixShare(lean!.id, 0.32)]) {
      expect(result.ok ? '' : result.troubles[0].what).toBe('EAN32 is on board already.');
    }
    expect(mixes()).toBe(before);
    expect(setMixShare(rich!.id, 0.32)).toMatchObject({ ok: true });
    desk.setState(({ trip }) => ({ trip: { ...trip, mixes: [...trip.mixes, { ...rich!, id: 'twin' }] } }));
    expect(setMixPrice('twin', 7)).toMatchObject({ ok: true });
    expect(setMixShare('twin', 0.32)).toMatchObject({ ok: true });
    expect(setMixShare(air!.id, 0.22)).toMatchObject({ ok: true });
  });

  it('refuse what no mix can be, and stay as they were', () => {
    const before = mixes();
    expect(addMix(1.2).ok).toBe(false);
    expect(setMixShare(before[0]!.id, 0).ok).toBe(false);
    expect(setMixPrice(before[0]!.id, -1).ok).toBe(false);
    expect(mixes()).toBe(before);
  });

  it('take an analysis and let go of it again', () => {
    const { id } = mixes().at(-1)!;
    setMixAnalysis(id, 0.316);
    expect(mixes().at(-1)!.analysedO2).toBe(0.316);
    setMixAnalysis(id, null);
    expect('analysedO2' in mixes().at(-1)!).toBe(false);
  });

  it('refuse to lose the last, and say why', () => {
    const [air, ...others] = mixes();
    for (const { id } of others) removeMix(id);
    const result = removeMix(air!.id);
    expect(result.ok ? '' : `${result.troubles[0].what} ${result.troubles[0].mend}`).toBe(
      'Air is all there is on board. Put another mix on board first, or give this one another share.',
    );
    expect(mixes()).toEqual([air]);
  });

  it('lose one, and dives that named it choose for themselves', () => {
    const { trip } = desk.getState();
    const named = trip.dives.find((dive) => dive.mix !== 'auto')!;
    expect(removeMix(named.mix).ok).toBe(true);
    expect(mixes().some(({ id }) => id === named.mix)).toBe(false);
    expect(desk.getState().trip.dives.find(({ id }) => id === named.id)!.mix).toBe('auto');
    expect(checkTrip(desk.getState().trip)).toEqual([]);
  });
});

describe('putOnBoard', () => {
  it('is one step, named after what comes on board, and one step back', () => {
    const before = desk.getState().trip;
    expect(putOnBoard([29, 34], null).ok).toBe(true);
    expect(mixes().map(({ o2 }) => o2)).toEqual([0.21, 0.29, 0.34]);
    expect(desk.getState().history.past).toHaveLength(1);
    expect(desk.getState().history.past[0]!.label).toBe('On board: EAN29, EAN34');
    undoStep();
    expect(desk.getState().trip).toBe(before);
  });

  it('leaves what is before the date as it was', () => {
    const date = diveDates(desk.getState().trip)[3]!;
    const before = ledger(desk.getState().trip);
    putOnBoard([34], date);
    const after = ledger(desk.getState().trip);
    before.divers[0]!.entries.forEach((entry, index) => {
      if (entry.dive.startsAt >= date) return;
      expect(after.divers[0]!.entries[index]!.mix).toBe(entry.mix);
    });
    expect(mixes().length).toBeGreaterThan(2);
    // Taking one of them off the boat again leaves no dive that names it.
    removeMix(mixes().find(({ o2 }) => o2 === 0.34)!.id);
    expect(checkTrip(desk.getState().trip)).toEqual([]);
  });
});
