import { describe, expect, it } from 'vitest';
import { framedMarks } from '../../../../../../renderer/places/days/strip/use-frame';

/** Lines at 100 and 200, to weights 80 and 120 deep, with bars of 20. */
const marks = [
  { lineX: 100, weightY: 80, barEndX: 120 },
  { lineX: 200, weightY: 120, barEndX: 220 },
];

const framed = (left: number, right: number, top: number, bottom: number) =>
  framedMarks({ left, right, top, bottom }, marks);

describe('framedMarks', () => {
  it('takes a dive whose line or bar it touches', () => {
    expect(framed(90, 110, 20, 40)).toEqual([0]);
    expect(framed(110, 130, 70, 90)).toEqual([0]);
    expect(framed(90, 210, 20, 40)).toEqual([0, 1]);
  });

  it('leaves what it passes: below the weight, above the bar, between the lines', () => {
    expect(framed(90, 110, 90, 140)).toEqual([]);
    expect(framed(110, 130, 20, 60)).toEqual([]);
    expect(framed(130, 190, 0, 200)).toEqual([]);
  });
});
