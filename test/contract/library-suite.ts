/** What every host's library must do alike: trips, their past saves, what is not saved yet, and other hands on them. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { Host, TripChange } from '../../core/host';
import { MAX_TRIP_BYTES } from '../../core/library';
import { expectTrouble, kind, saved, tripText, value, type Machine } from './machine';

/** @param on the machine of the test that runs */
export function keepsTrips(on: () => Machine): void {
  let machine: Machine;
  let host: Host;

  beforeEach(() => {
    machine = on();
    host = machine.host;
  });

  describe('the library', () => {
    it('is empty at first', async () => {
      expect(value(await host.listTrips())).toEqual([]);
    });

    it('gives back what was saved, to the letter', async () => {
      const text = tripText('Ten islands', { notes: 'ä → ≥ \u{1F420}\r\n  "quoted"', unknown: [1, null] });
      const trip = value(await host.writeTrip(null, text, 'Ten islands', null));
      expect(trip.text).toBe(text);
      expect(value(await host.readTrip(trip.token))).toEqual(trip);
    });

    it('lists trips with title and time, newest first', async () => {
      machine.setNow('2027-03-01T08:00:00.000Z');
      const older = await saved(host, 'Older');
      machine.setNow('2027-03-01T09:00:00.000Z');
      const newer = await saved(host, 'Newer');
      const summary = ({ token, savedAt }: typeof older, title: string) => ({
        token,
        title,
        home: 'library',
        savedAt,
      });
      expect(value(await host.listTrips())).toEqual([summary(newer, 'Newer'), summary(older, 'Older')]);
      expect(newer.savedAt).toBe('2027-03-01T09:00:00.000Z');
    });

    it('keeps trips of one title apart', async () => {
      const [one, two] = [await saved(host, 'Same'), await saved(host, 'Same')];
      expect(one.token).not.toBe(two.token);
      expect(value(await host.listTrips())).toHaveLength(2);
    });

    it('says so where a token stands for nothing', async () => {
      const { token } = await saved(host, 'Gone');
      value(await host.removeTrip(token));
      expectTrouble(await host.readTrip(token), 'not-found');
      expectTrouble(await host.writeTrip(token, tripText('Gone'), 'Gone', null), 'not-found');
      expectTrouble(await host.removeTrip(token), 'not-found');
      expect(value(await host.listTrips())).toEqual([]);
    });

    it('keeps the past saves of a trip that was removed', async () => {
      const { token } = await saved(host, 'Gone');
      value(await host.removeTrip(token));
      expect(value(await host.listVersions(token))).toHaveLength(1);
    });

    it('refuses to keep what is no trip', async () => {
      const trip = await saved(host, 'Good');
      for (const text of [
        '',
        'not JSON',
        '[]',
        'null',
        '{"format":"something/else"}',
        tripText('x').slice(0, -5),
      ]) {
        expectTrouble(await host.writeTrip(trip.token, text, 'Bad', null), 'not-readable');
        expectTrouble(await host.writeTrip(null, text, 'Bad', null), 'not-readable');
      }
      expect(value(await host.readTrip(trip.token)).text).toBe(trip.text);
      expect(value(await host.listTrips())).toHaveLength(1);
    });

    it('refuses what is larger than any trip', async () => {
      const text = tripText('Large', { notes: 'x'.repeat(MAX_TRIP_BYTES) });
      expectTrouble(await host.writeTrip(null, text, 'Large', null), 'too-large');
      expect(value(await host.listTrips())).toEqual([]);
    });
  });

  describe('the guard', () => {
    it('lets a save pass that knows the one before', async () => {
      const first = await saved(host, 'Week');
      const second = value(await host.writeTrip(first.token, tripText('Week 2'), 'Week 2', first.savedAt));
      expect(second.token).toBe(first.token);
      expect(value(await host.readTrip(first.token)).text).toBe(tripText('Week 2'));
      expect(value(await host.listTrips()).map(({ title }) => title)).toEqual(['Week 2']);
    });

    it('writes nothing over a save it does not know', async () => {
      const first = await saved(host, 'Week');
      await machine.changeOutside(first.token, tripText('Theirs'));
      expectTrouble(await host.writeTrip(first.token, tripText('Ours'), 'Ours', first.savedAt), 'changed');
      expect(value(await host.readTrip(first.token)).text).toBe(tripText('Theirs'));
    });

    it('writes over anything when told so, and keeps what stood there among the versions', async () => {
      const first = await saved(host, 'Week');
      await machine.changeOutside(first.token, tripText('Theirs'));
      value(await host.writeTrip(first.token, tripText('Ours'), 'Ours', null));
      const versions = value(await host.listVersions(first.token));
      const texts = await Promise.all(
        versions.map(async ({ version }) => value(await host.readVersion(first.token, version))),
      );
      expect(texts).toEqual([tripText('Ours'), tripText('Theirs'), tripText('Week')]);
    });

    it('tells saves of the same millisecond apart', async () => {
      machine.setNow('2027-03-01T08:00:00.000Z');
      const first = await saved(host, 'Week');
      const second = value(await host.writeTrip(first.token, tripText('Two'), 'Two', first.savedAt));
      expect(second.savedAt > first.savedAt).toBe(true);
      expectTrouble(await host.writeTrip(first.token, tripText('Three'), 'Three', first.savedAt), 'changed');
    });

    it('tells saves apart where the clock was set back', async () => {
      machine.setNow('2027-03-01T08:00:00.000Z');
      const first = await saved(host, 'Week');
      machine.setNow('2027-02-01T08:00:00.000Z');
      const second = value(await host.writeTrip(first.token, tripText('Two'), 'Two', first.savedAt));
      expect(second.savedAt > first.savedAt).toBe(true);
    });

    it('lets one of two saves at once pass, not both', async () => {
      const { token, savedAt } = await saved(host, 'Week');
      const both = await Promise.all(
        ['One', 'Two'].map((title) => host.writeTrip(token, tripText(title), title, savedAt)),
      );
      expect(both.map(kind).toSorted()).toEqual(['changed', 'ok']);
    });

    it('does saves in the order in which they were asked for', async () => {
      const { token } = await saved(host, 'Week');
      const titles = Array.from({ length: 20 }, (_, index) => `Save ${index}`);
      await Promise.all(titles.map((title) => host.writeTrip(token, tripText(title), title, null)));
      expect(value(await host.readTrip(token)).text).toBe(tripText('Save 19'));
    });
  });

  describe('past saves', () => {
    it('are the ten latest of the last hour, newest first, each readable', async () => {
      machine.setNow('2027-03-01T08:00:00.000Z');
      const { token } = await saved(host, 'Save 0');
      for (let index = 1; index <= 12; index += 1) {
        machine.setNow(`2027-03-01T08:${String(index).padStart(2, '0')}:00.000Z`);
        value(await host.writeTrip(token, tripText(`Save ${index}`), `Save ${index}`, null));
      }
      const versions = value(await host.listVersions(token));
      expect(versions.map(({ savedAt }) => savedAt.slice(14, 16))).toEqual([
        '12',
        '11',
        '10',
        '09',
        '08',
        '07',
        '06',
        '05',
        '04',
        '03',
      ]);
      const oldest = versions.at(-1);
      expect(value(await host.readVersion(token, oldest?.version ?? ''))).toBe(tripText('Save 3'));
    });

    it('keep the last of each hour of this morning, however many come after them', async () => {
      machine.setNow('2027-03-02T07:50:00.000Z');
      const { token } = await saved(host, 'Before breakfast');
      for (const [hour, title] of [
        ['08', 'First briefing'],
        ['10', 'Between the dives'],
        ['16', 'Afternoon'],
      ] as const) {
        for (let index = 0; index < 12; index += 1) {
          machine.setNow(`2027-03-02T${hour}:${String(index + 10)}:00.000Z`);
          value(await host.writeTrip(token, tripText(`${title} ${index}`), title, null));
        }
      }
      const versions = value(await host.listVersions(token));
      const texts = await Promise.all(
        versions.map(async ({ version }) => value(await host.readVersion(token, version))),
      );
      expect(texts.slice(10)).toEqual(
        ['Between the dives 11', 'First briefing 11', 'Before breakfast'].map((title) => tripText(title)),
      );
    });

    it('keep the last of an earlier day, however many come after it', async () => {
      machine.setNow('2027-03-01T18:00:00.000Z');
      const { token } = await saved(host, 'Monday evening');
      for (let index = 0; index < 15; index += 1) {
        machine.setNow(`2027-03-02T08:${String(index).padStart(2, '0')}:00.000Z`);
        value(await host.writeTrip(token, tripText(`Tuesday ${index}`), 'Tuesday', null));
      }
      const versions = value(await host.listVersions(token));
      expect(versions).toHaveLength(11);
      expect(value(await host.readVersion(token, versions.at(-1)?.version ?? ''))).toBe(
        tripText('Monday evening'),
      );
    });

    it('say so where there is no such version', async () => {
      const { token } = await saved(host, 'Week');
      expectTrouble(await host.readVersion(token, '2020-01-01T00:00:00.000Z'), 'not-found');
    });
  });

  describe('edits that are not saved yet', () => {
    const note = (title: string, savedAt: string | null) => ({ text: tripText(title), savedAt });

    it('are noted down for each trip, and for the one that has no token yet', async () => {
      const [one, two] = [await saved(host, 'One'), await saved(host, 'Two')];
      expect(value(await host.readUnsaved(one.token))).toBeNull();
      value(await host.keepUnsaved(one.token, note('One, edited', one.savedAt), false));
      value(await host.keepUnsaved(null, note('Begun', null), false));
      expect(value(await host.readUnsaved(one.token))).toEqual(note('One, edited', one.savedAt));
      expect(value(await host.readUnsaved(two.token))).toBeNull();
      expect(value(await host.readUnsaved(null))).toEqual(note('Begun', null));
      // The trip itself is as it was saved.
      expect(value(await host.readTrip(one.token)).text).toBe(tripText('One'));
      expect(value(await host.listVersions(one.token))).toHaveLength(1);
    });

    it('are the newest, however quickly they came', async () => {
      const { token, savedAt } = await saved(host, 'Week');
      const kept = Array.from({ length: 40 }, (_, index) =>
        host.keepUnsaved(token, note(`Edit ${index}`, savedAt), index === 39),
      );
      expect(value(await host.readUnsaved(token))).toEqual(note('Edit 39', savedAt));
      for (const result of await Promise.all(kept)) expect(kind(result)).toBe('ok');
      expect(value(await host.readUnsaved(token))).toEqual(note('Edit 39', savedAt));
    });

    it('are let go of when told so, and may come again', async () => {
      const { token, savedAt } = await saved(host, 'Week');
      for (const isLast of [false, true]) {
        void host.keepUnsaved(token, note('Edit', savedAt), isLast);
        value(await host.dropUnsaved(token));
        expect(value(await host.readUnsaved(token))).toBeNull();
      }
      value(await host.dropUnsaved(token));
      value(await host.keepUnsaved(token, note('Again', savedAt), true));
      expect(value(await host.readUnsaved(token))).toEqual(note('Again', savedAt));
    });
  });

  describe('the watch', () => {
    it('tells of a change made by somebody else', async () => {
      const { token } = await saved(host, 'Week');
      const changes: TripChange[] = [];
      const stop = host.watchTrips((change) => changes.push(change));
      await machine.changeOutside(token, tripText('Theirs'));
      await vi.waitFor(() => expect(changes).toEqual([{ token, kind: 'changed' }]), { timeout: 5000 });
      stop();
    });

    it('does not tell of our own', async () => {
      const { token } = await saved(host, 'Week');
      const changes: TripChange[] = [];
      host.watchTrips((change) => changes.push(change));
      value(await host.writeTrip(token, tripText('Ours'), 'Ours', null));
      // Another's change comes through afterwards: had ours been told, it would be there by now.
      await machine.changeOutside(token, tripText('Theirs'));
      await vi.waitFor(() => expect(changes).not.toEqual([]), { timeout: 5000 });
      expect(changes).toEqual([{ token, kind: 'changed' }]);
    });

    it('stops when told so', async () => {
      const { token } = await saved(host, 'Week');
      const [stopped, running]: [TripChange[], TripChange[]] = [[], []];
      host.watchTrips((change) => stopped.push(change))();
      host.watchTrips((change) => running.push(change));
      await machine.changeOutside(token, tripText('Theirs'));
      await vi.waitFor(() => expect(running).toHaveLength(1), { timeout: 5000 });
      expect(stopped).toEqual([]);
    });
  });
}
