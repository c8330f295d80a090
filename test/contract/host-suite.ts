/** What every Host must do alike. Each host's own test file calls this with a machine to run it on. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { Host, HostResult, TripChange } from '../../core/host';
import { DEFAULT_SETTINGS } from '../../core/host';
import { MAX_TRIP_BYTES } from '../../core/library';

/** A host on a machine of its own, with its user in the test's hand. */
export interface Machine {
  readonly host: Host;
  /** The clock of the machine; every save reads it. */
  setNow(iso: string): void;
  /** What the user chooses in the next dialog that opens a file; null: thinks better of it. */
  willOpen(file: { readonly name: string; readonly text: string } | null): void;
  /** What the user does in the next dialog that saves; false: thinks better of it. Returns how to read it. */
  willSave(name: string): () => Promise<string | Uint8Array>;
  /** What the next print dialog comes to. */
  willPrint(outcome: 'printed' | 'closed' | 'failed'): void;
  /** Somebody else saves another text over a stored trip. */
  changeOutside(token: string, text: string): Promise<void>;
  close(): Promise<void>;
}

export function tripText(title: string, extra: object = {}): string {
  return JSON.stringify({ format: 'carryover/trip', version: 1, title, ...extra });
}

function value<T>(result: HostResult<T>): T {
  if (!result.ok) throw new Error(`${result.trouble.kind}: ${result.trouble.what} (${result.trouble.where})`);
  return result.value;
}

function kind(result: HostResult<unknown>): string {
  return result.ok ? 'ok' : result.trouble.kind;
}

/** Every trouble has words for all three parts, whichever host tells it. */
function expectTrouble(result: HostResult<unknown>, expected: string): void {
  expect(kind(result)).toBe(expected);
  if (result.ok) return;
  expect(result.trouble.what).toMatch(/^[A-Z].*\.$/);
  expect(result.trouble.mend).toMatch(/^[A-Z].*\.$/);
  expect(result.trouble.where).not.toBe('');
}

export function holdsTheContract(name: string, makeMachine: () => Promise<Machine>): void {
  describe(name, () => {
    let machine: Machine;
    let host: Host;

    beforeEach(async () => {
      machine = await makeMachine();
      host = machine.host;
      return () => machine.close();
    });

    const saved = async (title: string) => value(await host.writeTrip(null, tripText(title), title, null));

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
        const older = await saved('Older');
        machine.setNow('2027-03-01T09:00:00.000Z');
        const newer = await saved('Newer');
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
        const [one, two] = [await saved('Same'), await saved('Same')];
        expect(one.token).not.toBe(two.token);
        expect(value(await host.listTrips())).toHaveLength(2);
      });

      it('says so where a token stands for nothing', async () => {
        const { token } = await saved('Gone');
        value(await host.removeTrip(token));
        expectTrouble(await host.readTrip(token), 'not-found');
        expectTrouble(await host.writeTrip(token, tripText('Gone'), 'Gone', null), 'not-found');
        expectTrouble(await host.removeTrip(token), 'not-found');
        expect(value(await host.listTrips())).toEqual([]);
      });

      it('keeps the past saves of a trip that was removed', async () => {
        const { token } = await saved('Gone');
        value(await host.removeTrip(token));
        expect(value(await host.listVersions(token))).toHaveLength(1);
      });

      it('refuses to keep what is no trip', async () => {
        const trip = await saved('Good');
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
        const first = await saved('Week');
        const second = value(await host.writeTrip(first.token, tripText('Week 2'), 'Week 2', first.savedAt));
        expect(second.token).toBe(first.token);
        expect(value(await host.readTrip(first.token)).text).toBe(tripText('Week 2'));
        expect(value(await host.listTrips()).map(({ title }) => title)).toEqual(['Week 2']);
      });

      it('writes nothing over a save it does not know', async () => {
        const first = await saved('Week');
        await machine.changeOutside(first.token, tripText('Theirs'));
        expectTrouble(await host.writeTrip(first.token, tripText('Ours'), 'Ours', first.savedAt), 'changed');
        expect(value(await host.readTrip(first.token)).text).toBe(tripText('Theirs'));
      });

      it('writes over anything when told so, and keeps what stood there among the versions', async () => {
        const first = await saved('Week');
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
        const first = await saved('Week');
        const second = value(await host.writeTrip(first.token, tripText('Two'), 'Two', first.savedAt));
        expect(second.savedAt > first.savedAt).toBe(true);
        expectTrouble(
          await host.writeTrip(first.token, tripText('Three'), 'Three', first.savedAt),
          'changed',
        );
      });

      it('tells saves apart where the clock was set back', async () => {
        machine.setNow('2027-03-01T08:00:00.000Z');
        const first = await saved('Week');
        machine.setNow('2027-02-01T08:00:00.000Z');
        const second = value(await host.writeTrip(first.token, tripText('Two'), 'Two', first.savedAt));
        expect(second.savedAt > first.savedAt).toBe(true);
      });

      it('lets one of two saves at once pass, not both', async () => {
        const { token, savedAt } = await saved('Week');
        const both = await Promise.all(
          ['One', 'Two'].map((title) => host.writeTrip(token, tripText(title), title, savedAt)),
        );
        expect(both.map(kind).toSorted()).toEqual(['changed', 'ok']);
      });

      it('does saves in the order in which they were asked for', async () => {
        const { token } = await saved('Week');
        const titles = Array.from({ length: 20 }, (_, index) => `Save ${index}`);
        await Promise.all(titles.map((title) => host.writeTrip(token, tripText(title), title, null)));
        expect(value(await host.readTrip(token)).text).toBe(tripText('Save 19'));
      });
    });

    describe('past saves', () => {
      it('are the ten latest of the last hour, newest first, each readable', async () => {
        machine.setNow('2027-03-01T08:00:00.000Z');
        const { token } = await saved('Save 0');
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
        const { token } = await saved('Before breakfast');
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
        const { token } = await saved('Monday evening');
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
        const { token } = await saved('Week');
        expectTrouble(await host.readVersion(token, '2020-01-01T00:00:00.000Z'), 'not-found');
      });
    });

    describe('edits that are not saved yet', () => {
      const note = (title: string, savedAt: string | null) => ({ text: tripText(title), savedAt });

      it('are noted down for each trip, and for the one that has no token yet', async () => {
        const [one, two] = [await saved('One'), await saved('Two')];
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
        const { token, savedAt } = await saved('Week');
        const kept = Array.from({ length: 40 }, (_, index) =>
          host.keepUnsaved(token, note(`Edit ${index}`, savedAt), index === 39),
        );
        expect(value(await host.readUnsaved(token))).toEqual(note('Edit 39', savedAt));
        for (const result of await Promise.all(kept)) expect(kind(result)).toBe('ok');
        expect(value(await host.readUnsaved(token))).toEqual(note('Edit 39', savedAt));
      });

      it('are let go of when told so, and may come again', async () => {
        const { token, savedAt } = await saved('Week');
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

    describe('files', () => {
      it('are opened where the user says', async () => {
        machine.willOpen({ name: 'week.carryover', text: tripText('From a file') });
        const opened = value(await host.openTrip());
        expect(opened?.text).toBe(tripText('From a file'));
        expect(value(await host.readTrip(opened?.token ?? ''))).toMatchObject({
          text: tripText('From a file'),
        });
      });

      it('can be saved again after they were opened', async () => {
        machine.willOpen({ name: 'week.carryover', text: tripText('From a file') });
        const opened = value(await host.openTrip());
        const { token = '', savedAt = '' } = opened ?? {};
        const second = value(await host.writeTrip(token, tripText('Edited'), 'Edited', savedAt));
        expect(value(await host.readTrip(token))).toEqual(second);
      });

      it('are handed over as they are, also where they are no trip, for the reader to say what is wrong', async () => {
        machine.willOpen({ name: 'week.carryover', text: '{"format":' });
        expect(value(await host.openTrip())?.text).toBe('{"format":');
        expect(value(await host.listTrips())).toEqual([]);
      });

      it('are not opened where the user thinks better of it', async () => {
        machine.willOpen(null);
        expect(value(await host.openTrip())).toBeNull();
        machine.willOpen(null);
        expect(value(await host.openText())).toBeNull();
      });

      it('take a copy of the trip, which can then be saved on its own', async () => {
        const original = await saved('Week');
        const read = machine.willSave('copy.carryover');
        const copy = value(await host.saveTripAs(tripText('Copy'), 'Copy of the week'));
        expect(await read()).toBe(tripText('Copy'));
        expect(copy?.token).not.toBe(original.token);
        value(await host.writeTrip(copy?.token ?? '', tripText('Copy 2'), 'Copy 2', copy?.savedAt ?? null));
        expect(value(await host.readTrip(original.token)).text).toBe(tripText('Week'));
      });

      it('take documents', async () => {
        const read = machine.willSave('slates.pdf');
        const bytes = new Uint8Array([37, 80, 68, 70, 0, 255]);
        expect(value(await host.saveDocument(bytes, 'slates.pdf', 'application/pdf'))).toBe('slates.pdf');
        expect(Buffer.from((await read()) as Uint8Array)).toEqual(Buffer.from(bytes));
        expect((await host.showSaved()).ok).toBe(host.supports.showSaved);
      });

      it('give text to import', async () => {
        machine.willOpen({ name: 'sites.csv', text: 'name,depth\nReef,18\n' });
        expect(value(await host.openText())).toEqual({ name: 'sites.csv', text: 'name,depth\nReef,18\n' });
      });
    });

    describe('printing', () => {
      const A6 = { widthMm: 105, heightMm: 148 };

      it('is offered, and done with whether it was printed or not', async () => {
        expect(host.supports.systemPrint).toBe(true);
        machine.willPrint('printed');
        expect(value(await host.printPages(A6))).toBeNull();
        machine.willPrint('closed');
        expect(value(await host.printPages(A6))).toBeNull();
      });

      it('tells where it could not be', async () => {
        machine.willPrint('failed');
        expectTrouble(await host.printPages(A6), 'refused');
      });
    });

    describe('settings', () => {
      it('are the defaults at first, and keep what was changed', async () => {
        expect(value(await host.loadSettings())).toEqual(DEFAULT_SETTINGS);
        value(await host.saveSettings({ units: 'imperial', textScale: 1.25 }));
        value(await host.saveSettings({ place: 'mixes' }));
        expect(value(await host.loadSettings())).toEqual({
          ...DEFAULT_SETTINGS,
          units: 'imperial',
          textScale: 1.25,
          place: 'mixes',
        });
      });
    });

    describe('the watch', () => {
      it('tells of a change made by somebody else', async () => {
        const { token } = await saved('Week');
        const changes: TripChange[] = [];
        const stop = host.watchTrips((change) => changes.push(change));
        await machine.changeOutside(token, tripText('Theirs'));
        await vi.waitFor(() => expect(changes).toEqual([{ token, kind: 'changed' }]), { timeout: 5000 });
        stop();
      });

      it('does not tell of our own', async () => {
        const { token } = await saved('Week');
        const changes: TripChange[] = [];
        host.watchTrips((change) => changes.push(change));
        value(await host.writeTrip(token, tripText('Ours'), 'Ours', null));
        // Another's change comes through afterwards: had ours been told, it would be there by now.
        await machine.changeOutside(token, tripText('Theirs'));
        await vi.waitFor(() => expect(changes).not.toEqual([]), { timeout: 5000 });
        expect(changes).toEqual([{ token, kind: 'changed' }]);
      });

      it('stops when told so', async () => {
        const { token } = await saved('Week');
        const [stopped, running]: [TripChange[], TripChange[]] = [[], []];
        host.watchTrips((change) => stopped.push(change))();
        host.watchTrips((change) => running.push(change));
        await machine.changeOutside(token, tripText('Theirs'));
        await vi.waitFor(() => expect(running).toHaveLength(1), { timeout: 5000 });
        expect(stopped).toEqual([]);
      });
    });

    describe('sources', () => {
      it('that the app does not cite are refused', async () => {
        for (const url of [
          'http://doi.org/10.1000/1',
          'https://doi.org.evil.example/',
          'https://user@evil.example/',
          'javascript:alert(1)',
          'file:///etc/passwd',
          'nonsense',
        ]) {
          expectTrouble(await host.openSource(url), 'refused');
        }
      });
    });

    it('names itself and what it runs on', async () => {
      const about = await host.about();
      expect(about.app).toBe('Carryover');
      expect(about.versions.length).toBeGreaterThan(0);
    });
  });
}
