const signs = new Map<string | undefined, string>();

/** The reader's decimal sign, asked of the platform once: a page of figures is formatted at every key press. */
export function decimalSign(locale?: string): string {
  let sign = signs.get(locale);
  if (sign === undefined) {
    const parts = new Intl.NumberFormat(locale, { minimumFractionDigits: 1 }).formatToParts(0.5);
    sign = parts.find(({ type }) => type === 'decimal')?.value ?? '.';
    signs.set(locale, sign);
  }
  return sign;
}
