import { describe, expect, it } from 'vitest';
import { printable } from '../../../../electron/terminal/printable';

describe('printable', () => {
  it('writes out what steers a terminal, and leaves lines and letters', () => {
    expect(printable('Ö 16 °C\nnext')).toBe('Ö 16 °C\nnext');
    expect(printable('\u001b[2J\u009b31m\u0007\r\u007f\u2028\u202e')).toBe(
      String.raw`\u001b[2J\u009b31m\u0007\u000d\u007f\u2028\u202e`,
    );
  });

  it('leaves JSON what it was', () => {
    const value = { a: 'c1 \u009b31m, del \u007f, \u2028', b: ['\u001b', '\n'] };
    expect(JSON.parse(printable(JSON.stringify(value, null, 2)))).toEqual(value);
  });
});
