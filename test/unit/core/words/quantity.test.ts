import { describe, expect, it } from 'vitest';
import {
  digits,
  fromUnit,
  isOfOneUnit,
  moreCareful,
  printed,
  printedSi,
  rounded,
  shownIn,
  toUnit,
  typedIn,
  type Quantity,
  type System,
} from '../../../../core/words/quantity';

const POINT = { decimal: '.', minus: '-' };
const COMMA = { decimal: ',', minus: '\u2212' };
const FOOT = 0.3048;

function text(quantity: Quantity, si: number, system: System = 'metric'): string {
  const { value, unit } = shownIn(si, quantity, system, POINT);
  return unit === '' ? value : `${value} ${unit}`;
}

describe('rounded', () => {
  it('goes down, up or to the nearest', () => {
    expect([rounded(46.999, 0, 'down'), rounded(46.001, 0, 'up')]).toEqual([46, 47]);
    expect([rounded(46.5, 0, 'near'), rounded(46.49, 0, 'near')]).toEqual([47, 46]);
    expect([rounded(1.449, 2, 'down'), rounded(1.441, 2, 'up'), rounded(1.4449, 3, 'near')]).toEqual([
      1.44, 1.45, 1.445,
    ]);
  });

  it('goes the same way below zero', () => {
    expect([rounded(-1.2, 0, 'down'), rounded(-1.2, 0, 'up'), rounded(-1.2, 0, 'near')]).toEqual([
      -2, -1, -1,
    ]);
  });

  it('knows tens', () => {
    expect([rounded(1459, -1, 'down'), rounded(1451, -1, 'up'), rounded(1454, -1, 'near')]).toEqual([
      1450, 1460, 1450,
    ]);
  });

  it('takes binary dust for the number it is, on either side', () => {
    expect(rounded(0.29 * 100, 0, 'down')).toBe(29);
    expect(rounded(1.4 + 2e-16, 2, 'up')).toBe(1.4);
    expect(rounded(33 - 1e-9, 0, 'down')).toBe(33);
    expect(rounded(33 + 1e-9, 0, 'up')).toBe(33);
    expect([rounded(400 - 9e-7, 0, 'down'), rounded(400 + 9e-7, 0, 'up')]).toEqual([400, 400]);
  });

  it('takes nothing else for dust', () => {
    expect([rounded(47 + 2e-6, 0, 'up'), rounded(47 - 2e-6, 0, 'down')]).toEqual([48, 46]);
    expect([rounded(4.7 + 2e-7, 1, 'up'), rounded(4.7 - 2e-7, 1, 'down')]).toEqual([4.8, 4.6]);
  });

  it('has no minus before a zero', () => {
    for (const toward of ['down', 'up', 'near'] as const) {
      expect(Object.is(rounded(-1e-9, 0, toward), 0)).toBe(true);
    }
    expect(Object.is(rounded(-0.4, 0, 'near'), 0)).toBe(true);
    expect(Object.is(rounded(-3, -1, 'up'), 0)).toBe(true);
  });
});

describe('digits', () => {
  it('leave zeros out between the least and the most', () => {
    expect(digits(1.4, 1, 3, 'near', POINT)).toBe('1.4');
    expect(digits(1, 1, 3, 'near', POINT)).toBe('1.0');
    expect(digits(1.405, 1, 3, 'near', POINT)).toBe('1.405');
    expect(digits(100, 0, 2, 'near', POINT)).toBe('100');
    expect(digits(1200, 0, -1, 'near', POINT)).toBe('1200');
    expect(digits(0.5, 0, 1, 'near', POINT)).toBe('0.5');
    expect(digits(10.5, 0, 2, 'near', POINT)).toBe('10.5');
    expect(digits(1.2, 2, 2, 'near', POINT)).toBe('1.20');
  });

  it('are in the signs of the reader', () => {
    expect(digits(-1.5, 0, 1, 'near', COMMA)).toBe('\u22121,5');
    expect(digits(-1.5, 0, 1, 'near', POINT)).toBe('-1.5');
    expect(digits(12, 0, 0, 'near', COMMA)).toBe('12');
  });
});

describe('a quantity', () => {
  it.each<[Quantity, number, string, string]>([
    ['depthMet', 24.01, '24.1 m', '79 ft'],
    ['depthMet', 24, '24 m', '79 ft'],
    ['depthMet', 60 * FOOT, '18.3 m', '60 ft'],
    ['depthSet', 24, '24 m', '78 ft'],
    ['depthSet', 24.06, '24 m', '78 ft'],
    ['depthSet', 80 * FOOT, '24.3 m', '80 ft'],
    ['depthLimit', 33.75, '33 m', '110 ft'],
    ['depthLimit', 28.99, '28 m', '95 ft'],
    ['altitude', 1499.2, '1500 m', '4919 ft'],
    ['minutesMet', 38.2, '39 min', '39 min'],
    ['minutesLeft', 38.99, '38 min', '38 min'],
    ['minutesLeft', -0.1, '-1 min', '-1 min'],
    ['minutesSet', 14.78, '14.7 min', '14.7 min'],
    ['minutesSet', 40 - 1e-9, '40 min', '40 min'],
    ['minutesDived', 14.71, '14.8 min', '14.8 min'],
    ['minutesTyped', 1.66, '1.7 min', '1.7 min'],
    ['pressureLeft', 50.9, '50 bar', '730 psi'],
    ['pressureNeeded', 100.2, '101 bar', '1460 psi'],
    ['pressureTyped', 206.8427, '207 bar', '3000 psi'],
    ['gasUsed', 1500.1, '1501 L', '53 cu ft'],
    ['gasLeft', 1500.9, '1500 L', '53 cu ft'],
    ['cylinderWater', 11.11, '11.1 L', '0.4 cu ft'],
    ['rateTyped', 15.04, '15 L/min', '0.53 cu ft/min'],
    ['oxygen', 0.32, '32 %', '32 %'],
    ['oxygen', 0.3249, '32.49 %', '32.49 %'],
    ['oxygen', 0.28 + 1e-16, '28 %', '28 %'],
    ['oxygen', 0.324901, '32.5 %', '32.5 %'],
    ['oxygenLimit', 0.3499, '34 %', '34 %'],
    ['oxygenLimitFine', 0.3499, '34.9 %', '34.9 %'],
    ['oxygenSet', 0.40999, '40.99 %', '40.99 %'],
    ['po2Met', 1.391, '1.40 bar', '1.40 bar'],
    ['po2Limit', 1.4, '1.4 bar', '1.4 bar'],
    ['po2Limit', 1, '1.0 bar', '1.0 bar'],
    ['po2Limit', 1.4069, '1.406 bar', '1.406 bar'],
    ['shareMet', 0.4101, '42 %', '42 %'],
    ['shareLeft', 0.4199, '41 %', '41 %'],
    ['shareTyped', 0.3155, '31.6 %', '31.6 %'],
    ['doseMet', 149.2, '150', '150'],
    ['doseLeft', 149.8, '149', '149'],
    ['densityMet', 5.21, '5.3 g/L', '5.3 g/L'],
    ['densityMet', 6, '6.0 g/L', '6.0 g/L'],
    ['densityLimit', 5.2, '5.2 g/L', '5.2 g/L'],
    ['money', 12.5, '12.50', '12.50'],
    ['wholeMoney', 12, '12', '12'],
  ])('%s of %s', (quantity, si, metric, imperial) => {
    expect(text(quantity, si)).toBe(metric);
    expect(text(quantity, si, 'imperial')).toBe(imperial);
  });

  it('prints what can be taken for the figure it is, and no less careful', () => {
    expect(printed(24.01, 'depthMet', 'metric')).toBe(24.1);
    expect(printedSi(24.01, 'depthMet', 'imperial')).toBe(79 * FOOT);
    expect(printedSi(0.3499, 'oxygenLimit', 'metric')).toBe(0.34);
    expect(printedSi(0.29, 'oxygenLimit', 'metric')).toBe(0.29);
  });

  it('is told once where both systems have it alike', () => {
    expect([isOfOneUnit('minutesLeft'), isOfOneUnit('po2Met'), isOfOneUnit('depthMet')]).toEqual([
      true,
      true,
      false,
    ]);
  });

  it('is the more careful of two: of what is met the more, of what is allowed the less', () => {
    expect([moreCareful('depthMet', 20, 21), moreCareful('pressureLeft', 50, 51)]).toEqual([21, 50]);
    expect([moreCareful('depthMet', 21, 20), moreCareful('pressureLeft', 51, 50)]).toEqual([21, 50]);
  });
});

describe('money and gas', () => {
  const APART = { decimal: ',', minus: '\u2212', thousands: "'" };
  const apart = (si: number, quantity: Quantity): string => shownIn(si, quantity, 'metric', APART).value;

  it('have their thousands apart, and nothing else has', () => {
    expect(['999', '1000', '12345', '1234567'].map((each) => apart(Number(each), 'wholeMoney'))).toEqual([
      '999',
      "1'000",
      "12'345",
      "1'234'567",
    ]);
    expect([100, 9999, 900_000, 190_910].map((each) => apart(each, 'wholeMoney'))).toEqual([
      '100',
      "9'999",
      "900'000",
      "190'910",
    ]);
    expect(apart(123_456.5, 'money')).toBe("123'456,50");
    expect(apart(2400, 'gasUsed')).toBe("2'400");
    expect(apart(2400, 'altitude')).toBe('2400');
  });

  it('have the sign before the first thousand', () => {
    expect(apart(-123_456, 'wholeMoney')).toBe("\u2212123'456");
    expect(apart(-123, 'wholeMoney')).toBe('\u2212123');
  });

  it('have them together where a reader has nothing between', () => {
    expect(shownIn(1234, 'wholeMoney', 'metric', POINT).value).toBe('1234');
  });
});

describe('units', () => {
  it('lead there and back', () => {
    expect(fromUnit(toUnit(30, 'depth', 'imperial'), 'depth', 'imperial')).toBeCloseTo(30, 12);
    expect(toUnit(100, 'pressure', 'imperial')).toBeCloseTo(1450.377, 3);
    expect([toUnit(0.32, 'share', 'metric'), fromUnit(57, 'share', 'metric')]).toEqual([32, 0.57]);
    expect([fromUnit(34.7, 'share', 'metric'), fromUnit(1e-7, 'share', 'metric')]).toEqual([
      0.347,
      1e-7 / 100,
    ]);
    expect(fromUnit(1, 'volume', 'imperial')).toBeCloseTo(28.316846592, 12);
  });
});

describe('a figure that was typed', () => {
  it.each<[number, Parameters<typeof typedIn>[1], Parameters<typeof typedIn>[2], string, string]>([
    [18.25, 'depth', 'exact', '18.25 m', '59.875 ft'],
    [18.25, 'depth', 'near', '18.3 m', '60 ft'],
    [1, 'depth', 'up', '1 m', '4 ft'],
    [100, 'depth', 'down', '100 m', '328 ft'],
    [18, 'speed', 'exact', '18 m/min', '59.055 ft/min'],
    [3, 'gas-rate', 'up', '3 L/min', '0.11 cu ft/min'],
    [0.315, 'share', 'exact', '31.5 %', '31.5 %'],
    [1025, 'water-density', 'exact', '1025 kg/m³', '1025 kg/m³'],
    [3, 'speed', 'up', '3 m/min', '10 ft/min'],
    [350, 'pressure', 'down', '350 bar', '5076 psi'],
    [1.2346, 'oxygen-rate', 'exact', '1.235 L/min', '1.235 L/min'],
    [1.2344, 'oxygen-rate', 'exact', '1.234 L/min', '1.234 L/min'],
    [6, 'loop-volume', 'exact', '6 L', '6 L'],
  ])('%s %s, %s', (si, kind, bound, metric, imperial) => {
    for (const [system, expected] of [
      ['metric', metric],
      ['imperial', imperial],
    ] as const) {
      const { value, unit } = typedIn(si, kind, bound, system, POINT);
      expect(`${value} ${unit}`).toBe(expected);
    }
  });
});
