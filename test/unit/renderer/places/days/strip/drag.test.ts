import { describe, expect, it } from 'vitest';
import {
  depthStepM,
  draggedDepthM,
  figureAt,
  snapped,
  stepped,
} from '../../../../../../renderer/places/days/strip/drag';
import { depthScale } from '../../../../../../renderer/places/days/strip/depth-scale';
import { placeOf, timeScale } from '../../../../../../renderer/places/days/strip/time-scale';

describe('draggedDepthM', () => {
  it('snaps to whole metres, and to half metres with the modifier', () => {
    expect(draggedDepthM(18, 16, 6, 'metric', false)).toBe(21);
    expect(draggedDepthM(18, 16, 6, 'metric', true)).toBe(20.5);
  });

  it('snaps to five feet and to one foot for who thinks in feet', () => {
    expect(draggedDepthM(18.288, 0, 6, 'imperial', false)).toBeCloseTo(60 * 0.3048, 6);
    expect(draggedDepthM(18.288, 2, 6, 'imperial', true)).toBeCloseTo(61 * 0.3048, 6);
  });

  it('does not hide a depth above the surface: the plan refuses it, not the arithmetic', () => {
    expect(draggedDepthM(2, -30, 6, 'metric', false)).toBe(-3);
  });
});

describe('snapped and stepped', () => {
  it('leave no dust of binary fractions', () => {
    expect(snapped(20.7000001, 0.5)).toBe(20.5);
    expect(stepped(20.5, 0.5, 1)).toBe(21);
    expect(stepped(60 * 0.3048, depthStepM('imperial', true), 1)).toBeCloseTo(61 * 0.3048, 6);
  });

  it('bring an uneven figure to the grid first', () => {
    expect(stepped(21.3, 1, 1)).toBe(22);
    expect(stepped(21.3, 1, -1)).toBe(21);
    expect(stepped(21, 1, -1)).toBe(20);
  });
});

describe('figureAt', () => {
  const span = { firstDay: 20_884, dayCount: 2 };
  const noon = 20_884 * 1440 + 720;
  const other = { startMin: noon - 240, endMin: noon - 190 };
  const lineWith = (startMin: number) =>
    placeOf(timeScale(span, [other, { startMin, endMin: startMin + 50 }], 860), startMin);

  const endWith = (bottomMin: number) =>
    placeOf(timeScale(span, [{ startMin: noon, endMin: noon + bottomMin + 6 }], 860), noon + bottomMin);

  it('puts the line of a moved dive under the pointer, though the page stretches around it', () => {
    for (const wanted of [noon - 180, noon - 5, noon, noon + 95, noon + 1440]) {
      const found = figureAt(lineWith(wanted), 20_884 * 1440, 20_886 * 1440 - 60, 5, lineWith);
      expect(found).toBe(wanted);
    }
  });

  it('finds the bottom time whose bar ends under the pointer', () => {
    expect(figureAt(endWith(43), 1, 240, 1, endWith)).toBe(43);
  });
});

describe('depthScale', () => {
  it('leaves room for figures under the deepest weight', () => {
    const scale = depthScale(36, 240, 'metric');
    expect(240 - 36 * scale.pxPerM).toBeGreaterThanOrEqual(34 - 1e-9);
    expect(scale.marks.map(({ label }) => label)).toEqual(['10', '20', '30', '40']);
  });

  it('marks every thirty feet for who thinks in feet', () => {
    const { marks } = depthScale(30, 240, 'imperial');
    expect(marks.map(({ label }) => label)).toEqual(['30', '60', '90']);
    expect(marks[1]!.depthM).toBeCloseTo(18.288, 9);
  });

  it('keeps some water under a trip without dives', () => {
    expect(depthScale(0, 240, 'metric').bottomM).toBe(20);
  });
});
