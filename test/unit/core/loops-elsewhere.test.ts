/** What does not reckon with loops says so, and nothing reckons one as open circuit. */
import { describe, expect, it } from 'vitest';
import { ledger } from '../../../core/ledger/ledger';
import { secondOpinions } from '../../../core/ledger/second-opinion';
import { cautionsOf } from '../../../core/cautions/all';
import { ledgerDocument } from '../../../core/formats/ledger-document';
import { writeLedgerRows } from '../../../core/formats/ledger-rows';
import { writeUddf } from '../../../core/formats/uddf/write-uddf';
import { mixChoices } from '../../../core/mixes/choice';
import { outcomeOf } from '../../../core/mixes/outcome';
import { openTrip, stockedTrip } from '../../../core/mixes/stocked-trip';
import { PLAIN_REQUEST } from '../../../core/mixes/shares';
import { searchStock } from '../../../core/mixes/stock';
import { planTable } from '../../../electron/terminal/plan-table';
import { fileWords, pageReader } from '../../../core/words/reader';
import type { DiverLedger } from '../../../core/ledger/ledger-types';
import { roomMinutes, roomOf } from '../../../core/ledger/room';
import { workingsOf } from '../../../core/workings/all';
import { FIGURES, type FigureId } from '../../../core/workings/types';
import { loopTrip } from '../../support/loop-trip';
import { layoutOf, wordsOf } from '../../support/slates';

const trip = loopTrip({}, { freshScrubber: true });
const whole = ledger(trip);
const [mine] = whole.divers;
const [entry] = mine!.entries;

/** The same with its first dive far too long. */
const pastTrip = { ...trip, dives: [{ ...trip.dives[0]!, depthM: 30, bottomMin: 90 }] };
const [late] = ledger(pastTrip).divers as [DiverLedger];

describe('a loop', () => {
  it('is in the ledger file, and in the rows by a remark', () => {
    const { divers } = ledgerDocument(whole, cautionsOf(whole));
    const { loop, mix, gas } = divers[0]!.entries[0]!;
    expect([mix, gas.usedL]).toEqual([null, null]);
    expect(loop).toMatchObject({
      setpoints: { lowBar: 0.7, highBar: 1.2, switchM: 6 },
      diluent: { o2: 0.21 },
    });
    expect(loop!.bailOut!.mixes).toHaveLength(1);
    expect(divers[1]!.entries[0]).not.toHaveProperty('loop');
    expect(writeLedgerRows(whole)).toContain('On a loop: setpoint 0.7, from 6 m 1.2.');
  });

  it('stands in the table with its setpoint, what is left, and bail-out with its run time', () => {
    const table = planTable(whole, cautionsOf(whole), pageReader('metric')).replaceAll(/[ \n]+/g, ' ');
    expect(table).toContain('SP 1.2');
    expect(table).toMatch(/Loop: setpoint 0\.7, from 6 m 1\.2, diluent Air; left: oxygen \d+ bar/);
    expect(table).toMatch(
      /Bail-out from 15 m at 40 min: Air 240 L of 1.998 L, MOD 56 m; stops 5 m 3 min; surface after 6 min\./,
    );
    expect(planTable(ledger({ ...trip, dives: [] }), [], pageReader('metric'))).not.toContain('SP:');
  });

  it('is looked up in the government table by the most nitrogen inspired, never less than at depth', () => {
    const opinions = secondOpinions(mine!, trip);
    mine!.entries.forEach((each, i) => {
      const fsw = opinions[i]!.depthFsw!;
      // At the deepest point, and at the switch from the low setpoint to the high one.
      const bar = 1.01325 + each.depthM * 1019.7 * 9.80665e-5;
      const atDepth = ((bar - 0.0627 - 1.15) / 0.79 + 0.0627 - 1.01325) / 0.030643;
      expect(fsw).toBeGreaterThanOrEqual(Math.max(0, atDepth) - 1e-6);
      expect(each.table!.groupAfter).not.toBeNull();
    });
  });

  it('chooses no mix: the stock search gives the others theirs, and fills what the loop takes', () => {
    const open = openTrip(trip, PLAIN_REQUEST);
    const stocked = ledger(stockedTrip(open, [32]));
    expect(stocked.divers[0]!.entries.every(({ mix, loop }) => mix === null && loop !== null)).toBe(true);
    const outcome = outcomeOf(stocked, open.openIds, 1);
    const others = stocked.divers.slice(1).flatMap(({ entries }) => entries);
    const answer = searchStock(trip, { ...PLAIN_REQUEST, count: 1 });
    const list = answer.ok ? answer.value.lists.find(({ percents }) => percents[0] === 32)! : null;
    expect([list!.divesWithin, list!.cost, list!.fills]).toEqual([
      outcome.divesWithin,
      outcome.cost,
      outcome.fills,
    ]);
    expect(list!.smallestRoomMin).toBeCloseTo(outcome.smallestRoomMin!, 9);
    // Oxygen for each dive; diluent and bail-out of this loop are air.
    expect(outcome.fills).toBe(
      others.filter(({ mix }) => mix !== null && mix.o2 !== 0.21).length + trip.dives.length,
    );
  });

  it('is no choice of a mix: of one dive the others alone are told', () => {
    const [first] = trip.dives;
    for (const { divers } of mixChoices(whole, first!.id)) {
      expect(divers.map(({ diverId }) => diverId)).toEqual(trip.party.slice(1).map(({ id }) => id));
    }
  });

  it('is in UDDF as a closed circuit on its diluent, the setpoint at each change', () => {
    const { text } = writeUddf(whole, mine!.diver.id, '2027-03-01T18:00:00Z');
    expect(text).toContain('<divemode type="closedcircuit"/>');
    expect(text).toContain('<setpo2 setby="user">70000</setpo2>');
    expect(text).toMatch(/<depth>6<\/depth><divetime>\d+<\/divetime><setpo2 setby="user">120000<\/setpo2>/);
    expect(text).toContain('Bail-out, by the plan');
    expect(text).not.toContain('opencircuit');
  });

  it('has on its card the diluent and what is left of the scrubber, where open circuit has its pressures', () => {
    const { pages } = layoutOf(trip, { kind: 'card', diverIds: [mine!.diver.id], dates: ['2027-03-14'] });
    const words = pages.map(wordsOf).join('\n').split('\n');
    expect(words).toContain('Diluent');
    expect(words).toContain('Scrubber');
    for (const { loop } of mine!.entries.slice(0, 3)) {
      const { leftMin } = loop!.scrubber;
      expect(words).toContain(leftMin < 0 ? 'none' : String(Math.floor(leftMin)));
    }
    expect(words).not.toContain('Turn');
    // What was dived is written in below: a pressure would be of no one cylinder.
    expect(words).toContain('as dived');
    expect(words).not.toContain('bar');
  });

  it('has on each form of its card setpoints, switch depth, and bail-out from the worst moment with its run time', () => {
    for (const card of ['full', 'short', 'dive'] as const) {
      const change = { kind: 'card', card, diverIds: [mine!.diver.id], dates: ['2027-03-14'] } as const;
      const text = layoutOf(trip, change).pages.map(wordsOf).join(' ').replaceAll('\n', ' ');
      expect(text).toContain('Loop: setpoint 0.7, from 6 m 1.2.');
      const { fromM, atMin, runtimeMin, mixes } = entry!.loop!.bailOut!;
      const way = `Bail-out from ${Math.ceil(fromM)} m at ${Math.ceil(atMin)} min: Air ${Math.ceil(mixes[0]!.neededL)} L`;
      expect(text).toContain(way);
      expect(text).toContain(`MOD 56 m; stops 5 m 3 min; surface after ${Math.ceil(runtimeMin)} min.`);
    }
  });

  it('has workings that come to the figures, or say that there is none on a loop', () => {
    for (const figure of FIGURES) {
      const { result, exact } = workingsOf(figure, entry!, { trip, diverLedger: mine!, words: fileWords });
      expect(result).not.toMatch(/NaN|undefined/);
      const is = {
        po2Bar: entry!.po2Bar,
        noStopMin: entry!.noStopMin,
        leading: entry!.leading.fractionOfLimit,
        gasDensityGL: entry!.gasDensityGL,
        interval: entry!.intervalMin,
        'cns.before': entry!.cns.before,
        'cns.after': entry!.cns.after,
        'cns.day': entry!.cns.day,
        'otu.dive': entry!.otu.dive,
        'otu.day': entry!.otu.day,
        'otu.trip': entry!.otu.trip,
        'esot.dive': entry!.esot.dive,
        'esot.day': entry!.esot.day,
        // What is left of a loop is its scrubber.
        endBar: entry!.loop!.scrubber.leftMin,
        'room.min': roomMinutes(trip, entry!).min,
      }[figure as string];
      const isOfACylinder = ['eadM', 'minimumBar', 'turnBar'].includes(figure);
      expect(result === 'there is none on a loop').toBe(isOfACylinder);
      if (isOfACylinder) expect(exact).toBeNull();
      if (figure === 'modM') {
        const leastM = Math.min(entry!.loop!.diluentModM, entry!.loop!.bailOutModM);
        expect(Number.parseFloat(result)).toBeCloseTo(leastM, 1);
      }
      if (is !== undefined) expect(exact).toBeCloseTo(is!, 9);
    }
    // Of nitrogen on every dive: what its limit, levels, stops, metres and earliest start come from.
    for (const each of [...mine!.entries, ...late.entries]) {
      const context = {
        trip: each.dive === late.entries[0]!.dive ? pastTrip : trip,
        diverLedger: mine!,
        words: fileWords,
      };
      const exactOf = (figure: FigureId) => workingsOf(figure, each, context).exact;
      const room = roomOf(context.trip, each);
      const whatItIs: readonly (readonly [FigureId, number | null])[] = [
        ['noStopMin', each.noStopMin],
        ['stops', each.stops!.reduce((sum, { min }) => sum + min, 0)],
        ['room.m', room.m],
        ['earlierMin', room.earlierMin],
        ...each.levels.map(({ noStopMin }, i) => [`levels.${i}`, noStopMin] as const),
      ];
      for (const [figure, is] of whatItIs) {
        if (is === null) expect([figure, exactOf(figure)]).toEqual([figure, null]);
        else expect(exactOf(figure), figure).toBeCloseTo(is, 6);
      }
    }
    const { steps } = workingsOf('noStopMin', entry!, { trip, diverLedger: mine!, words: fileWords });
    expect(steps.map(({ label }) => label)).toContain(
      'Inspired nitrogen at the level, I = P − 0.0627 − (setpoint − tolerance), never below 0',
    );
    expect(steps.some(({ label }) => label.includes('NaN') || label.includes('of the mix'))).toBe(false);
    const numbers = (figure: FigureId) =>
      workingsOf(figure, entry!, { trip, diverLedger: mine!, words: fileWords }).steps.map(({ value }) =>
        Number.parseFloat(value.split(': ').at(-1)!),
      );
    const [oxygenLpm, min, oxygenL, volumeL, rise, diluentL] = numbers('usedL');
    expect(oxygenLpm! * min!).toBeCloseTo(oxygenL!, 1);
    expect(volumeL! * rise!).toBeCloseTo(diluentL!, 1);
    // What a scrubber lasts, less what stands beneath it, is what is left.
    const [lasts, earlier, own] = numbers('endBar');
    expect(lasts! - earlier! - own!).toBeCloseTo(entry!.loop!.scrubber.leftMin, 2);
    // Of the clock what was before and each leg, behind the three of the setpoint.
    const parts = numbers('cns.after').slice(3);
    expect(parts.length).toBeGreaterThan(5);
    expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(100 * entry!.cns.after!, 1);
  });
});
