import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { figuresOf } from '../../../../core/workings/all';
import type { Workings } from '../../../../core/workings/types';
import { planCommand } from '../../../../electron/terminal/plan-command';
import { aTerminal } from '../../../support/a-terminal';

interface Document {
  readonly format: string;
  readonly version: number;
  readonly diveId: string;
  readonly divers: readonly { readonly diverId: string; readonly workings: readonly Workings[] }[];
}

const trip = demoTrip();
const whole = ledger(trip);

async function explain(...args: readonly string[]): Promise<Document> {
  const { status, stdout, stderr } = await planCommand(['--explain', ...args, '--json'], aTerminal());
  expect([status, stderr]).toEqual([0, '']);
  return JSON.parse(stdout) as Document;
}

describe('plan --explain', () => {
  it('prints every figure of a dive for everybody on it, each as the ledger has it', async () => {
    const document = await explain('13');
    const dive = trip.dives[12]!;
    expect(document).toMatchObject({ format: 'carryover/workings', version: 1, diveId: dive.id });
    expect(document.divers.map(({ diverId }) => diverId)).toEqual(trip.party.map(({ id }) => id));
    for (const { diverId, workings } of document.divers) {
      const { entries } = whole.divers.find(({ diver }) => diver.id === diverId)!;
      const entry = entries.find((each) => each.dive.id === dive.id)!;
      expect(workings.map(({ figure }) => figure)).toEqual(figuresOf(entry));
      const exact = Object.fromEntries(workings.map((each) => [each.figure, each.exact]));
      expect(exact['noStopMin']).toBeCloseTo(entry.noStopMin!, 9);
      expect(exact['po2Bar']).toBeCloseTo(entry.po2Bar!, 12);
      expect(exact['cns.after']).toBeCloseTo(entry.cns.after!, 9);
      expect(exact['minimumBar']).toBeCloseTo(entry.gas.minimumBar!, 9);
    }
  });

  it('prints one figure of one diver, the dive by its id or its number', async () => {
    const byNumber = await explain('13.room.min', '--diver', 'guest2');
    expect(byNumber.divers).toHaveLength(1);
    expect(byNumber.divers[0]!.workings.map(({ figure }) => figure)).toEqual(['room.min']);
    expect(await explain(`${trip.dives[12]!.id}.room.min`, '--diver', 'guest2')).toEqual(byNumber);
  });

  it('prints them as text at 100 columns: formula, numbers, result, source', async () => {
    const { status, stdout } = await planCommand(
      ['--explain', '13.po2Bar', '--diver', 'guest2'],
      aTerminal(),
    );
    expect(status).toBe(0);
    expect(stdout).toContain('for Guest 2');
    expect(stdout).toContain('oxygen × P');
    expect(stdout).toMatch(/= \d\.\d+ bar/);
    expect(stdout).toContain('Source: ');
    for (const line of (await planCommand(['--explain', '13'], aTerminal())).stdout.split('\n')) {
      expect(Array.from(line).length).toBeLessThanOrEqual(100);
    }
  });

  it.each([
    [['--explain', '99'], 'no dive "99"'],
    [['--explain', '13.depth'], 'No figure of a dive is called "depth"'],
    [['--explain'], 'A value is missing'],
  ])('refuses %j and says how to mend it', async (args, what) => {
    const { status, stdout, stderr } = await planCommand(args, aTerminal());
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toContain('--explain: ');
    expect(stderr).toContain(what);
  });
});
