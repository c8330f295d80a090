import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { sturdiness } from '../../../../core/sturdiness/sturdiness';
import type { SturdinessDocument } from '../../../../core/sturdiness/sturdiness-document';
import { planCommand } from '../../../../electron/terminal/plan-command';
import { aTerminal } from '../../../support/a-terminal';

const SPEAKS_OF = 'never of the chance of injury';

function plan(...args: readonly string[]) {
  return planCommand(['--sturdy', ...args], aTerminal());
}

describe('plan --sturdy', () => {
  it('prints how often each dive passes a limit, which to ease first, and of what it speaks', async () => {
    const { status, stdout, stderr } = await plan('--runs', '100', '--seed', '7');
    expect([status, stderr]).toEqual([0, '']);
    const text = stdout.replaceAll(/\s+/g, ' ');
    expect(text).toContain('drawn 100 times, seed 7; standard deviations: depth 1 m, bottom time 2 min');
    expect(text).toContain(SPEAKS_OF);
    expect(text).toMatch(/\d+ % of the runs keep every limit on every dive\. Ease first: .*Anvil Head/);
    expect(text).toContain('do not prevent decompression sickness');
    expect(stdout).toMatch(/Guide +−?\d+ +\d+ +\d+ % +gas rate \d+ % +gas \d+ %/);
    expect((await plan('--runs', '100', '--seed', '7')).stdout).toBe(stdout);
    expect((await plan('--runs', '100', '--seed', '8')).stdout).not.toBe(stdout);
  });

  it('prints the same as JSON, unrounded, of one diver where one is asked', async () => {
    const { stdout } = await plan('--runs', '100', '--json', '--diver', 'guest2');
    const document = JSON.parse(stdout) as SturdinessDocument;
    expect(document).toMatchObject({ format: 'carryover/sturdiness', version: 1, runs: 100, seed: 1 });
    expect(document.speaksOf).toContain(SPEAKS_OF);
    expect(new Set(document.entries.map(({ diverId }) => diverId))).toEqual(new Set(['guest2']));
    const { cells, dives, keepsAll } = sturdiness(demoTrip(), { runs: 100, seed: 1, nowMin: null }, true);
    expect(document).toMatchObject({ dives, keepsAll });
    const own = cells.filter(({ diverId }) => diverId === 'guest2');
    expect(document.entries.map(({ passes, room5Min }) => [passes, room5Min])).toEqual(
      own.map(({ passes, room5Min }) => [passes, room5Min]),
    );
    for (const { firstOrder, doesMost } of document.entries) {
      expect(Math.max(...Object.values(firstOrder!))).toBe(firstOrder![doesMost!]);
    }
  });

  it('refuses what it cannot draw by, and what it would pass over', async () => {
    for (const [args, where] of [
      [['--runs', '99'], '--runs'],
      [['--runs', '1e5'], '--runs'],
      [['--seed', '-1'], '--seed'],
      [['--explain', '13'], '--sturdy'],
    ] as const) {
      const { status, stdout, stderr } = await plan(...args);
      expect([status, stdout]).toEqual([2, '']);
      expect(stderr).toContain(where);
    }
    const alone = await planCommand(['--runs', '100'], aTerminal());
    expect(alone).toMatchObject({ status: 2 });
    expect(alone.stderr).toContain('--sturdy');
  });
});
