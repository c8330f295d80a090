/** Units, clock and order of a date as the system has them: asked once, at the first start. */
import type { Settings } from '../../core/host';

/**
 * Regions where divers count in feet and psi: the United States and their territories, Liberia, Myanmar.
 * Source: Unicode CLDR, measurement systems (US), from memory.
 */
const IMPERIAL = new Set(['US', 'PR', 'GU', 'VI', 'AS', 'MP', 'UM', 'LR', 'MM']);

/** @param locale of the platform, as "en-GB"; the region that is usual for a language where none is named */
export function systemSettings(locale: string): Pick<Settings, 'units' | 'clock' | 'dates'> {
  const region = new Intl.Locale(locale).maximize().region ?? '';
  const isHalfDay = new Intl.DateTimeFormat(locale, { hour: 'numeric' }).resolvedOptions().hour12 === true;
  const parts = new Intl.DateTimeFormat(locale, { day: '2-digit', month: '2-digit', year: 'numeric' })
    .formatToParts(0)
    .map(({ type }) => type)
    .filter((type) => type === 'day' || type === 'month' || type === 'year');
  return {
    units: IMPERIAL.has(region) ? 'imperial' : 'metric',
    clock: isHalfDay ? '12h' : '24h',
    dates: parts[0] === 'year' ? 'ymd' : parts[0] === 'month' ? 'mdy' : 'dmy',
  };
}
