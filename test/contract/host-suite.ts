/** What every Host must do alike. Each host's own test file calls this with a machine to run it on. */
import { beforeEach, describe, expect, it } from 'vitest';
import type { Host } from '../../core/host';
import { DEFAULT_SETTINGS } from '../../core/host';
import { keepsTrips } from './library-suite';
import { expectTrouble, saved, tripText, value, type Machine } from './machine';

export function holdsTheContract(name: string, makeMachine: () => Promise<Machine>): void {
  describe(name, () => {
    let machine: Machine;
    let host: Host;

    beforeEach(async () => {
      machine = await makeMachine();
      host = machine.host;
      return () => machine.close();
    });

    keepsTrips(() => machine);

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
        const original = await saved(host, 'Week');
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
