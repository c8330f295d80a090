import { execFile } from 'node:child_process';
import { mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { fillsMade } from '../../../../core/mixes/blending';
import { ledger } from '../../../../core/ledger/ledger';
import { diveDates } from '../../../../core/mixes/shares';
import type { MixesDocument } from '../../../../core/mixes/mixes-document';
import { pageReader, wordsOf } from '../../../../core/words/reader';
import { dayOf, said } from '../../../../core/words/said';
import { SAFETY_LINE } from '../../../../core/words/safety-line';
import { fileWords } from '../../../../core/words/reader';
import { demoTrip } from '../../../../core/document/demo-trip';
import { writeTrip } from '../../../../core/document/write-trip';
import { mixesCommand } from '../../../../electron/terminal/mixes-command';
import { aTerminal } from '../../../support/a-terminal';

const ROOT = new URL('../../../../', import.meta.url).pathname;

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'mixes-'));
});
afterEach(async () => {
  await rm(folder, { recursive: true });
});

/** A date as a table has it. */
function dated(date: string): string {
  return wordsOf(pageReader('metric'))(said`${dayOf(date)}`);
}

describe('mixes', () => {
  it('takes paths from where the user stands, though npm runs it elsewhere', async () => {
    await writeFile(join(folder, 'trip.json'), writeTrip({ ...demoTrip(), title: 'Beside the user' }));
    const { stdout } = await promisify(execFile)(
      'npm',
      ['--prefix', ROOT, 'run', '--silent', 'mixes', '--', 'trip.json'],
      { cwd: folder },
    );
    expect(stdout).toContain('Beside the user');
  });

  it('compares the sites of the demo trip at 100 columns, with the cautions of every page', async () => {
    const { status, stdout, stderr } = await mixesCommand([], aTerminal());
    expect(status).toBe(0);
    expect(stderr).toBe('');
    for (const site of demoTrip().sites) expect(stdout).toContain(site.name);
    expect(stdout.replaceAll('\n', ' ')).toContain(fileWords(SAFETY_LINE));
    for (const line of stdout.split('\n')) expect(Array.from(line).length).toBeLessThanOrEqual(100);
  });

  it('names the depth of a dive beside its no-stop time where that is not the depth of the site', async () => {
    const trip = demoTrip();
    const kettle = trip.sites.find(({ id }) => id === 'kettle')!;
    const { stdout } = await mixesCommand([], aTerminal());
    const [document, table] = [
      JSON.parse((await mixesCommand(['--json'], aTerminal())).stdout) as MixesDocument,
      stdout,
    ];
    const block = table.slice(table.indexOf(`${kettle.name}, `), table.indexOf('Millstone Ledge, '));
    const cells = document.compare.find(({ siteId }) => siteId === 'kettle')!.cells;
    for (const { inTripDepthM, noStopInTripMin } of cells) {
      expect(inTripDepthM).toBeLessThan(kettle.depthM);
      expect(block).toContain(`${Math.floor(noStopInTripMin!)} at ${inTripDepthM} m`);
    }
    // At the site of 36 m its tightest dive goes down to 36 m: the depth over the table is the one it is for.
    const anvil = table.slice(table.indexOf('Anvil Head, '), table.indexOf('Fills of the trip'));
    expect(anvil).toMatch(/EAN28 +yes/);
    expect(anvil).not.toMatch(/\d at \d/);
  });

  it('prints carryover/mixes version 1, stock best first and never fewer than twenty lists', async () => {
    const path = join(folder, 'trip.json');
    await writeFile(path, writeTrip(demoTrip()));
    const { status, stdout, stderr } = await mixesCommand([path, '--json', '--stock', '2'], aTerminal());
    expect(status).toBe(0);
    expect(stderr).toBe('');
    const document = JSON.parse(stdout) as MixesDocument;
    expect(document).toMatchObject({ format: 'carryover/mixes', version: 1, total: 91 });
    expect(document.searched).toBeLessThanOrEqual(91 - document.withUnused);
    expect(document.compare.map((row) => row.siteId)).toEqual(demoTrip().sites.map((site) => site.id));
    expect(document.stock.length).toBeGreaterThanOrEqual(20);
    expect(document.stock[0]).toMatchObject({
      o2: [0.28, 0.35],
      best: true,
      mixes: 2,
      smallestRoomAt: { limit: 'gas' },
      nitrogenUnlimited: false,
      outside: [],
    });
    expect(document.currency).toBe('€');
    const within = document.stock.map((list) => list.divesWithin);
    expect(within).toEqual(within.toSorted((a, b) => b - a));
    for (const cell of document.compare.flatMap((row) => row.cells)) {
      expect(cell.allowed).toBe(cell.reason === null);
      for (const value of Object.values(cell))
        if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
    }
    expect(await readdir(folder)).toEqual(['trip.json']);
  });

  it('says which list to stock, in sentences, and what lists are made of', async () => {
    const usual = (await mixesCommand(['--stock', '2'], aTerminal())).stdout.replaceAll('\n', ' ');
    expect(usual).toContain(
      'Stock EAN28 and EAN35. All 22 dives stay within their limits, with 6 min or more left.',
    );
    expect(usual).toContain(
      'Gas, not nitrogen, sets these 6 min on other lists too, so nitrogen room decides',
    );
    expect(usual).toContain('91 lists there are');
    const board = (await mixesCommand(['--stock', '2', '--pool', 'board'], aTerminal())).stdout;
    expect(board).toContain('3 lists there are');
    const every = (await mixesCommand(['--stock', '1', '--pool', '22-40'], aTerminal())).stdout;
    expect(every).toContain('19 lists there are');
  });

  it('tells the fills as they stand, and with the first list told on board', async () => {
    const [, , before, from] = diveDates(demoTrip());
    const { status, stdout } = await mixesCommand(['--stock', '2', '--from', from!], aTerminal());
    expect(status).toBe(0);
    const stands = stdout.indexOf('Fills of the trip as it stands');
    const stocked = stdout.indexOf('Fills with the first of these lists on board');
    expect(stands).toBeGreaterThan(0);
    expect(stocked).toBeGreaterThan(stdout.indexOf(`What to stock from ${dated(from!)} on`));
    // Only the dives that are open to it.
    expect(stdout.slice(stocked)).not.toContain(dated(before!));
    expect(stdout.slice(stands, stocked)).toContain(dated(before!));
    for (const line of stdout.split('\n')) expect(Array.from(line).length).toBeLessThanOrEqual(100);
  });

  it('reckons the fills by every way of filling, as the window does, with the bottles of oxygen to bring', async () => {
    const whole = ledger(demoTrip());
    const bottle = { waterL: 40, fillBar: 200 };
    for (const method of ['banked', 'partial-pressure', 'continuous', 'membrane'] as const) {
      for (const law of ['ideal', 'real'] as const) {
        const made = fillsMade(whole, { method, law, startBar: 40, startO2: null }, bottle);
        if (!made.ok) throw new Error(JSON.stringify(made.troubles));
        const asked = ['--fill', method, '--law', law, '--back', '40', '--bottle', '40x200'];
        const { stdout } = await mixesCommand([...asked, '--json'], aTerminal());
        const { fills } = JSON.parse(stdout) as MixesDocument;
        expect(fills).toMatchObject({ method, law, backBar: 40, leftO2: null, total: made.value.plan.total });
        expect(fills!.lines.map(({ oxygenL }) => oxygenL)).toEqual(
          made.value.plan.lines.map(({ oxygenL }) => oxygenL),
        );
        expect(fills!.bottles).toBe(made.value.bottles.bottles);
        expect(fills!.steps.length > 0).toBe(method === 'partial-pressure');
      }
    }
    const text = (await mixesCommand(['--fill', 'partial-pressure'], aTerminal())).stdout;
    expect(text).toContain('by partial pressure: oxygen, then air');
    // 12 L from 50 bar of EAN32 to 200 bar: 150 · (0.32 − 0.21) / 0.79 = 20.9 bar of oxygen by Dalton.
    expect(text).toMatch(/EAN32 +12 L +\d+ +50 bar +oxygen to 71 bar +oxygen to \d+ bar +200 bar/);
    expect(text.replaceAll(/\s+/g, ' ')).toMatch(/\d bottles? of oxygen for the trip, without a booster/);
    expect(text.replaceAll(/\s+/g, ' ')).toContain('Blending needs training and oxygen-clean gear');
    const membrane = (await mixesCommand(['--fill', 'membrane'], aTerminal())).stdout;
    expect(membrane).toContain('A membrane takes no oxygen from bottles.');
    const booster = (await mixesCommand(['--fill', 'partial-pressure', '--bottle', '50x60'], aTerminal()))
      .stdout;
    expect(booster.replaceAll(/\s+/g, ' ')).toContain('it takes a booster.');
    const both = (await mixesCommand(['--fill', 'partial-pressure', '--units', 'both'], aTerminal())).stdout;
    for (const line of both.split('\n')) expect(Array.from(line).length).toBeLessThanOrEqual(100);
  });

  it('tells depths and gas in feet and cubic feet where asked, and in both', async () => {
    const imperial = (await mixesCommand(['--units', 'imperial'], aTerminal())).stdout;
    expect(imperial).toMatch(/, \d+ ft: best mix/);
    expect(imperial).toMatch(/EAN\d\d +yes +\d+ ft /);
    expect(imperial.replaceAll(/\s+/g, ' ')).toMatch(/come back at 725 psi of their mix; gas in cu ft/);
    expect(imperial).not.toMatch(/\d (m|L)\b/);
    const both = (await mixesCommand(['--units', 'both'], aTerminal())).stdout;
    expect(both).toMatch(/EAN\d\d +yes +\d+\/\d+ /);
    for (const line of both.split('\n')) expect(Array.from(line).length).toBeLessThanOrEqual(100);
  });

  it('searches nothing unless asked', async () => {
    const document = JSON.parse((await mixesCommand(['--json'], aTerminal())).stdout) as MixesDocument;
    expect(document).toMatchObject({ stock: [], searched: 0, total: 0 });
  });

  it('adds the shares typed in', async () => {
    const document = JSON.parse(
      (await mixesCommand(['--json', '--shares', '30.5'], aTerminal())).stdout,
    ) as MixesDocument;
    for (const row of document.compare) expect(row.cells.map((cell) => cell.o2)).toContain(0.305);
  });

  it.each([
    [['--stock', '0'], '--stock'],
    [['--stock', '5'], '--stock'],
    [['--stock', 'two'], '--stock'],
    [['--stock', '2', '--fixed', '20'], '--fixed'],
    [['--stock', '2', '--fixed', '41'], '--fixed'],
    [['--stock', '2', '--fixed', '21'], '--fixed'],
    [['--stock', '2', '--pool', '21-40'], '--pool'],
    [['--stock', '2', '--pool', '36-30'], '--pool'],
    [['--stock', '2', '--pool', 'all'], '--pool'],
    [['--pool', '22-40'], '--pool'],
    [['--stock', '1', '--from', '2031-01-01'], '--from'],
    [['--stock', '1', '--from', 'soon'], '--from'],
    [['--stock', '1', '--max-cost=-3'], '--max-cost'],
    [['--from', diveDates(demoTrip())[1]!], '--from'],
    [['--shares', '12'], '--shares'],
    [['--diver', 'nobody'], '--diver'],
    [['--units', 'feet'], '--units'],
    [['--units', 'imperial', '--json'], '--units'],
    [['--fill', 'bucket'], '--fill'],
    [['--law', 'boyle'], '--law'],
    [['--back', '500'], '--back'],
    [['--back=-1'], '--back'],
    [['--left', '32'], '--left'],
    [['--left', '32', '--fill', 'banked'], '--left'],
    [['--left', '12', '--fill', 'partial-pressure'], '--left'],
    [['--bottle', '50'], '--bottle'],
    [['--bottle', '0x200'], '--bottle'],
    [['--wet'], '--wet'],
    [['--stock'], '--stock'],
    [['a.json', 'b.json'], 'b.json'],
    [['nowhere.json'], 'nowhere.json'],
  ])('refuses %j, says where and how to mend it, and writes nothing', async (args, where) => {
    const { status, stdout, stderr } = await mixesCommand(args, aTerminal());
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toContain(`${where}: `);
    expect(stderr.trim().split('\n').length).toBeGreaterThanOrEqual(4);
    expect(await readdir(folder)).toEqual([]);
  });

  it('tells two mistakes at once', async () => {
    const { stderr } = await mixesCommand(['--stock', '0', '--fixed', '50'], aTerminal());
    expect(stderr).toContain('--stock');
    expect(stderr).toContain('--fixed');
  });

  it('says plainly where no mix may go', async () => {
    const trip = demoTrip();
    const site = { ...trip.sites[0]!, depthM: 65 };
    const path = join(folder, 'deep.json');
    await writeFile(path, writeTrip({ ...trip, sites: [site, ...trip.sites.slice(1)] }));
    const { status, stdout } = await mixesCommand([path], aTerminal());
    expect(status).toBe(0);
    expect(stdout).toContain('No mix can be used at this site.');
  });
});
