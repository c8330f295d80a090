import { afterEach, describe, expect, it, vi } from 'vitest';

/** What the platform's decimal sign is, for the module that is loaded next. */
async function styleWhereDecimalIs(sign: string) {
  vi.resetModules();
  vi.doMock('../../../../renderer/figures/decimal-sign', () => ({ decimalSign: () => sign }));
  return (await import('../../../../renderer/figures/csv-style')).csvStyle;
}

afterEach(() => vi.doUnmock('../../../../renderer/figures/decimal-sign'));

describe('csvStyle', () => {
  it('goes by the decimal sign of the system, unless one is chosen', async () => {
    const commas = { separator: ',', decimal: '.' };
    const semicolons = { separator: ';', decimal: ',' };
    for (const [sign, usual] of [
      ['.', commas],
      [',', semicolons],
      ['\u066B', commas],
    ] as const) {
      const csvStyle = await styleWhereDecimalIs(sign);
      expect(csvStyle({ tables: 'system' })).toEqual(usual);
      expect(csvStyle({ tables: 'commas' })).toEqual(commas);
      expect(csvStyle({ tables: 'semicolons' })).toEqual(semicolons);
    }
  });
});
