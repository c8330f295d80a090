import { describe, expect, it } from 'vitest';
import { limitShare, type ClockPiece } from '../../../../core/oxygen/clock-pieces';
import { dailyPieces, dayPeak, dayShareAt } from '../../../../core/oxygen/cns-day';

function piece(fromMin: number, toMin: number, fromLimitMin: number, toLimitMin = fromLimitMin): ClockPiece {
  return {
    fromMin,
    toMin,
    fromLimitMin,
    toLimitMin,
    share: limitShare(toMin - fromMin, fromLimitMin, toLimitMin),
  };
}

describe('dailyPieces', () => {
  it('cuts a descent where the limit bends and places each piece in time', () => {
    // 32 % from 1 bar to 4 bar in 3 minutes: 0.32 to 1.28 bar, 0.32 bar a minute.
    const pieces = dailyPieces([{ fromBar: 1, toBar: 4, min: 3 }], 0.32, 1000)!;
    const pressures = [0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.28];
    expect(pieces).toHaveLength(pressures.length - 1);
    pieces.forEach((each, index) => {
      expect(each.fromMin).toBeCloseTo(1000 + (pressures[index]! - 0.32) / 0.32, 9);
      expect(each.toMin).toBeCloseTo(1000 + (pressures[index + 1]! - 0.32) / 0.32, 9);
    });
    expect(pieces.map((each) => Math.round(each.fromLimitMin))).toEqual([
      720, 720, 570, 450, 360, 300, 270, 240,
    ]);
    expect(pieces.at(-1)!.toLimitMin).toBeCloseTo(216, 9);
  });

  it('cuts an ascent in the order of time', () => {
    const pieces = dailyPieces([{ fromBar: 4, toBar: 1, min: 3 }], 0.32, 0)!;
    expect(pieces).toHaveLength(8);
    expect(pieces[0]!.fromMin).toBe(0);
    for (const [index, each] of pieces.entries()) {
      if (index > 0) expect(each.fromMin).toBeCloseTo(pieces[index - 1]!.toMin, 9);
      expect(each.toLimitMin).toBeGreaterThanOrEqual(each.fromLimitMin);
    }
  });

  it('starts each leg where the one before ended', () => {
    const level = { fromBar: 1, toBar: 1, min: 10 };
    const pieces = dailyPieces([level, { fromBar: 1, toBar: 1, min: 20 }, level], 1, 5)!;
    expect(pieces.map((each) => [each.fromMin, each.toMin])).toEqual([
      [5, 15],
      [15, 35],
      [35, 45],
    ]);
  });

  it('makes no piece of no length where a leg begins or ends on a row of the table', () => {
    const legs = [
      { fromBar: 0.5, toBar: 0.6, min: 2 },
      { fromBar: 0.6, toBar: 0.8, min: 4 },
      { fromBar: 0.8, toBar: 0.5, min: 6 },
    ];
    const pieces = dailyPieces(legs, 1, 0)!;
    expect(pieces.map((each) => [each.fromMin, each.toMin].map((min) => Number(min.toFixed(9))))).toEqual([
      [0, 2],
      [2, 4],
      [4, 6],
      [6, 8],
      [8, 10],
      [10, 12],
    ]);
  });

  it('leaves out what does not count: 0.5 bar, and legs without time', () => {
    expect(dailyPieces([{ fromBar: 0.5, toBar: 0.5, min: 60 }], 1, 0)).toEqual([]);
    expect(dailyPieces([{ fromBar: 1, toBar: 1, min: 0 }], 1, 0)).toEqual([]);
    expect(dailyPieces([{ fromBar: 0.2, toBar: 0.5, min: 5 }], 1, 0)).toEqual([]);
  });

  it('is null above 1.6 bar, at the beginning of a leg as at its end', () => {
    expect(dailyPieces([{ fromBar: 1.7, toBar: 1, min: 1 }], 1, 0)).toBeNull();
    expect(dailyPieces([{ fromBar: 1, toBar: 1.7, min: 1 }], 1, 0)).toBeNull();
  });
});

describe('dayShareAt', () => {
  const pieces = [piece(0, 60, 300), piece(1000, 1090, 180)];

  it('adds up what lies in the day before, and cuts what lies across its ends', () => {
    expect(dayShareAt(pieces, -1)).toBe(0);
    expect(dayShareAt(pieces, 30)).toBeCloseTo(0.1, 12);
    expect(dayShareAt(pieces, 60)).toBeCloseTo(0.2, 12);
    expect(dayShareAt(pieces, 1045)).toBeCloseTo(0.45, 12);
    expect(dayShareAt(pieces, 1440)).toBeCloseTo(0.7, 12);
    expect(dayShareAt(pieces, 1470)).toBeCloseTo(0.6, 12);
    expect(dayShareAt(pieces, 1500)).toBeCloseTo(0.5, 12);
    expect(dayShareAt(pieces, 2440 + 45)).toBeCloseTo(0.25, 12);
    expect(dayShareAt(pieces, 2530)).toBe(0);
  });
});

describe('dayPeak', () => {
  /** Of a dive that counts from its first moment on. */
  const peakOf = (earlier: readonly ClockPiece[], current: readonly ClockPiece[]) =>
    dayPeak(earlier, current, current[0]!.fromMin);

  it('is what the clock reads at entry for a dive that adds nothing', () => {
    expect(dayPeak([piece(0, 60, 300)], [], 1000)).toBeCloseTo(0.2, 14);
    // Half of the dive before has left the 24 hours, then all of it.
    expect(dayPeak([piece(0, 60, 300)], [], 1470)).toBeCloseTo(0.1, 14);
    expect(dayPeak([piece(0, 60, 300)], [], 1500)).toBe(0);
    expect(dayPeak([], [], 1000)).toBe(0);
  });

  it('is the entry where a dive begins to count only after more has left', () => {
    // 0.4 at entry; at minute 1470, when the dive begins to add its 0.1, half of that has gone.
    expect(dayPeak([piece(0, 60, 150)], [piece(1470, 1500, 300)], 1440)).toBeCloseTo(0.4, 14);
    expect(dayPeak([piece(0, 60, 150)], [piece(1470, 1500, 300)], 1470)).toBeCloseTo(0.2, 14);
  });

  it('is the sum while nothing leaves the window', () => {
    expect(peakOf([piece(0, 60, 300)], [piece(1000, 1090, 180)])).toBeCloseTo(0.7, 14);
  });

  it('forgets a dive that ended a day before this one began', () => {
    expect(peakOf([piece(0, 60, 300)], [piece(1500, 1590, 180)])).toBeCloseTo(0.5, 14);
    expect(peakOf([piece(0, 60, 300)], [piece(2000, 2090, 180)])).toBeCloseTo(0.5, 14);
  });

  it('is the beginning where more leaves than comes', () => {
    // Yesterday 60 min at 1/150, today 60 min at 1/300 from the same hour: 0.4 falls to 0.2.
    expect(peakOf([piece(0, 60, 150)], [piece(1440, 1500, 300)])).toBeCloseTo(0.4, 14);
  });

  it('is an edge in the middle: the old dive begins to leave while the new one still goes on', () => {
    // Full until minute 30 of the new dive, which then has 0.1; after that twice as much leaves as comes.
    expect(peakOf([piece(30, 90, 150)], [piece(1440, 1500, 300)])).toBeCloseTo(0.4 + 0.1, 14);
  });

  it('is an edge in the middle: the old dive has left before the new one ends', () => {
    // Leaving 0.2 in 30 min against 0.1 coming, then 0.1 more: 0.2, 0.1, 0.2 against 0.2 + ...
    expect(peakOf([piece(0, 30, 150)], [piece(1440, 1560, 300)])).toBeCloseTo(0.4, 14);
  });

  it('is between the edges where the rates cross', () => {
    // Old limit falls from 300 to 100 while the new one holds at 200: equal after 50 of 100 minutes.
    const old = piece(0, 100, 300, 100);
    const now = piece(1440, 1540, 200);
    const atTurn = old.share - limitShare(50, 300, 200) + 50 / 200;
    expect(peakOf([old], [now])).toBeCloseTo(atTurn, 13);
    expect(atTurn).toBeGreaterThan(Math.max(old.share, now.share) + 0.01);
  });

  it('holds while the same dive of the day before leaves as fast as this one comes', () => {
    expect(peakOf([piece(0, 60, 150)], [piece(1440, 1500, 150)])).toBeCloseTo(0.4, 14);
  });

  it('does not follow two rates to a crossing that lies beyond their stretch', () => {
    // The limits would meet after 15 minutes; after 10 a heavier piece begins to leave.
    const old = [piece(0, 10, 300, 200), piece(10, 60, 50)];
    const now = piece(1440, 1500, 150);
    const full = old[0]!.share + old[1]!.share;
    expect(peakOf(old, [now])).toBeCloseTo(full - old[0]!.share + 10 / 150, 13);
  });

  it.each([
    {
      what: 'more and more leaves than comes',
      // From minute 60 on: limits 240 to 180 leave, 720 comes; the lines would meet eight hours before.
      old: [piece(0, 60, 100), piece(60, 120, 240, 180)],
      now: piece(1500, 1560, 720),
      highest: limitShare(60, 240, 180),
    },
    {
      what: 'more and more comes than leaves',
      // From minute 60 on: 570 to 720 leave, 240 comes; the lines would meet two hours before.
      old: [piece(0, 60, 150), piece(60, 120, 570, 720)],
      now: piece(1500, 1560, 240),
      highest: 60 / 240,
    },
  ])('does not ask the clock before the dive, though $what', ({ old, now, highest }) => {
    expect(peakOf(old, [now])).toBeCloseTo(highest, 13);
    expect(dayShareAt(old, 1440)).toBeGreaterThan(highest + 0.2);
  });

  it('is the beginning of a pause in which the old dive leaves at the lower rate', () => {
    const today = [piece(1410, 1440, 180), piece(1470, 1475, 240)];
    expect(peakOf([piece(0, 60, 720)], today)).toBeCloseTo(30 / 180 + 60 / 720, 13);
  });

  it('is where the clock stops rising without falling', () => {
    // From minute 1440 on air of yesterday leaves at the limit that today's dive rises to, and stays at.
    const today = [piece(1380, 1440, 240), piece(1440, 1450, 570, 720), piece(1450, 1460, 720)];
    const highest = 60 / 720 + 60 / 240 + limitShare(10, 570, 720) - 10 / 720;
    expect(peakOf([piece(0, 60, 720)], today)).toBeCloseTo(highest, 13);
  });

  it('does not take a trough for a peak', () => {
    const old = piece(0, 100, 100, 300);
    const now = piece(1440, 1540, 200);
    expect(peakOf([old], [now])).toBeCloseTo(Math.max(old.share, now.share), 13);
  });

  it('lets a stay of more than a day lose its own beginning', () => {
    expect(peakOf([], [piece(0, 2000, 720)])).toBeCloseTo(1440 / 720, 12);
  });

  it('counts a pause within the dive as one', () => {
    const today = [piece(1440, 1450, 200), piece(1470, 1500, 200)];
    // In the pause of 20 minutes only the old dive leaves.
    expect(peakOf([piece(0, 60, 200)], today)).toBeCloseTo(0.3, 13);
    expect(peakOf([piece(15, 60, 200)], today)).toBeCloseTo(45 / 200 + 10 / 200, 13);
  });
});
