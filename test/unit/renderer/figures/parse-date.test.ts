import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dateFieldText, parseDate } from '../../../../renderer/figures/parse-date';

const BEFORE = '2027-03-14';
const ORDERS = ['dmy', 'mdy', 'ymd'] as const;

function read(text: string, order: (typeof ORDERS)[number]): string {
  const parsed = parseDate(text, order, BEFORE);
  return parsed.ok ? parsed.value : 'refused';
}

describe('parseDate', () => {
  it.each([
    ['06/03/2027', '2027-03-06', '2027-06-03', 'refused'],
    ['6.3.27', '2027-03-06', '2027-06-03', 'refused'],
    ['6-3', '2027-03-06', '2027-06-03', '2027-06-03'],
    ['2027-03-06', '2027-03-06', '2027-03-06', '2027-03-06'],
    ['16/03/2027', '2027-03-16', 'refused', 'refused'],
    ['03/16/2027', 'refused', '2027-03-16', 'refused'],
  ])(
    'reads %j in the order of day, month, year; of month, day, year; and with the year first',
    (text, ...dates) => {
      expect(ORDERS.map((order) => read(text, order))).toEqual(dates);
    },
  );

  it.each(['6 mar 2027', '6 March 2027', 'Mar 6, 2027', '2027 mar 6', '6 mar'])(
    'reads %j whatever the order is',
    (text) => {
      for (const order of ORDERS) expect(read(text, order)).toBe('2027-03-06');
    },
  );

  it.each([
    '',
    '  ',
    'tomorrow',
    '6',
    '30/02/2027',
    '31 apr',
    '1/1/1/1',
    '6 ma 2027',
    '6 xyz 2027',
    'mar mar',
    '99999/1/1',
  ])('refuses %j, and says how it is typed', (text) => {
    const parsed = parseDate(text, 'dmy', BEFORE);
    expect(parsed.ok).toBe(false);
    if (!parsed.ok) expect(parsed.mend).toBe('Type it as 16/03/2027, or 16 Mar 2027.');
  });

  it('reads what a field shows, whatever the date and the order', () => {
    const dates = fc
      .date({ min: new Date('1970-01-01'), max: new Date('2199-12-31'), noInvalidDate: true })
      .map((date) => date.toISOString().slice(0, 10));
    fc.assert(
      fc.property(dates, fc.constantFrom(...ORDERS), (date, order) => {
        expect(read(dateFieldText(date, order), order)).toBe(date);
      }),
    );
  });
});
