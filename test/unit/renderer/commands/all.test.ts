import { beforeEach, describe, expect, it, vi } from 'vitest';
import { EXPORT_FORMATS } from '../../../../core/formats/all';
import { demoTrip } from '../../../../core/document/demo-trip';
import { COMMANDS } from '../../../../renderer/commands/all';
import { commandsOfTrip } from '../../../../renderer/commands/of-trip';
import type { Host, MenuCommand } from '../../../../core/host';
import { menuCommands, offerCommands, runFromMenu } from '../../../../renderer/commands/offer';
import { doubledKeys, isEnabled, labelOf } from '../../../../renderer/commands/registry';
import { chooseDives } from '../../../../renderer/actions/view';
import { setDepth } from '../../../../renderer/actions/dives';
import { addMix } from '../../../../renderer/actions/mixes';
import { setPo2Limits } from '../../../../renderer/actions/party';
import { PLACES } from '../../../../renderer/commands/place-names';
import { desk, freshDesk } from '../../../../renderer/store/store';

const byId = (id: string) => COMMANDS.find((command) => command.id === id)!;

beforeEach(() => desk.setState(freshDesk(demoTrip()), true));

describe('COMMANDS', () => {
  it('gives no key to two of them', () => {
    expect(doubledKeys(COMMANDS)).toEqual([]);
  });

  it('gives no id to two of them, nor to one of the trip’s own', () => {
    const ids = [...COMMANDS, ...commandsOfTrip(desk.getState())].map(({ id }) => id);
    expect(ids.length).toBe(new Set(ids).size);
  });

  it('has no key that types a character, which would take letters from whoever speaks or dictates', () => {
    const keys = COMMANDS.flatMap((command) => command.keys ?? []);
    expect(keys.filter((chord) => chord.length === 1)).toEqual([]);
  });

  it('leads to every place', () => {
    expect(COMMANDS.filter(({ group }) => group === 'Places').map(({ label }) => label)).toEqual(
      PLACES.map(({ label }) => label),
    );
  });

  it('hands out the trip in every format there is', () => {
    const ids = COMMANDS.map(({ id }) => id);
    expect(EXPORT_FORMATS.map(({ id }) => `save.${id}`).filter((id) => !ids.includes(id))).toEqual([]);
  });

  it('names what undo would undo', () => {
    expect(isEnabled(byId('edit.undo'), desk.getState())).toBe(false);
    const [dive] = desk.getState().trip.dives;
    setDepth(dive!.id, dive!.depthM - 1);
    expect(labelOf(byId('edit.undo'), desk.getState())).toBe('Undo depth of dive 1');
    byId('edit.undo').run();
    expect(labelOf(byId('edit.redo'), desk.getState())).toBe('Redo depth of dive 1');
    expect(desk.getState().trip.dives[0]).toBe(dive);
  });

  it('leaves a mix or PO2 at the beginning of what undo would undo as it is written', () => {
    addMix(0.5);
    expect(labelOf(byId('edit.undo'), desk.getState())).toBe('Undo EAN50 on board');
    setPo2Limits(desk.getState().trip.party[0]!.id, { working: 1.3 });
    expect(labelOf(byId('edit.undo'), desk.getState())).toBe('Undo PO2 limit of Guide');
  });

  it('removes the chosen dives and brings them back', () => {
    const { dives } = desk.getState().trip;
    chooseDives([dives[2]!.id, dives[5]!.id]);
    byId('dive.delete').run();
    expect(desk.getState().trip.dives).toHaveLength(dives.length - 2);
    byId('edit.undo').run();
    expect(desk.getState().trip.dives).toEqual(dives);
  });
});

describe('menuCommands', () => {
  it('offers every command with its first key and its state', () => {
    const offered = menuCommands(desk.getState());
    expect(offered.map(({ id }) => id)).toEqual(COMMANDS.map(({ id }) => id));
    expect(offered.find(({ id }) => id === 'edit.undo')).toEqual({
      id: 'edit.undo',
      label: 'Undo',
      group: 'Edit',
      keys: 'Mod+Z',
      enabled: false,
    });
  });

  it('offers nothing under a sheet, nor before the cautions are accepted, and runs nothing there', () => {
    const { settings, trip } = desk.getState();
    const accepted = { ...settings, cautionsAccepted: true };
    desk.setState({ settings: accepted, ready: true });
    chooseDives([trip.dives[2]!.id]);
    const offered = () => menuCommands(desk.getState()).filter(({ enabled }) => enabled);
    expect(offered().length).toBeGreaterThan(10);
    for (const state of [
      { overlay: { kind: 'settings' }, settings: accepted },
      { overlay: null, settings: { ...settings, cautionsAccepted: false } },
    ] as const) {
      desk.setState(state);
      expect(offered()).toEqual([]);
      runFromMenu('dive.delete');
      expect(desk.getState().trip).toBe(trip);
    }
    desk.setState({ overlay: null, settings: accepted });
    runFromMenu('dive.delete');
    expect(desk.getState().trip.dives).toHaveLength(trip.dives.length - 1);
  });
});

describe('offerCommands', () => {
  it('tells the host again as a sheet comes and goes, a moment later and what changes meanwhile at once', () => {
    vi.useFakeTimers();
    desk.setState({ settings: { ...desk.getState().settings, cautionsAccepted: true }, ready: true });
    const told: boolean[] = [];
    const stop = offerCommands({
      offerCommands: (commands: readonly MenuCommand[]) => told.push(commands.some(({ enabled }) => enabled)),
    } as unknown as Host);
    desk.setState({ overlay: { kind: 'settings' } });
    expect(told).toEqual([true]);
    vi.runAllTimers();
    expect(told).toEqual([true, false]);
    desk.setState({ overlay: null });
    vi.runAllTimers();
    desk.setState({ overlay: { kind: 'settings' } });
    desk.setState({ overlay: null });
    vi.runAllTimers();
    desk.setState({ overlay: { kind: 'settings' } });
    stop();
    vi.runAllTimers();
    vi.useRealTimers();
    expect(told).toEqual([true, false, true]);
  });
});
