/** The figures of the place in words, in the units of the window. */
import type { Entry } from '../../../core/ledger/ledger-types';
import type { MinutesRoom } from '../../../core/ledger/room';
import { said } from '../../../core/words/said';
import { moneySaid } from '../../../core/words/terms';
import { wordsIn } from '../../figures/reader';
import type { NoStopTime } from '../../../core/mixes/compare';
import type { RichestMix, WhyNot } from '../../../core/mixes/richest';
import type { StockList } from '../../../core/mixes/stock';
import { noMinutesText } from '../../figures/limits';
import { minutesText, NO_FIGURE, numberText, percentText, unitText } from '../../figures/format';
import type { System as Units } from '../../../core/words/quantity';

export function whyText(why: WhyNot, units: Units): string {
  return why.kind === 'ceiling'
    ? `above the ${percentText(why.maxO2, 'near')} of ${why.diver.name}`
    : `MOD ${unitText(why.modM, 'depth', units, 'down')} for ${why.diver.name}`;
}

export function noStopText(time: NoStopTime | null): string {
  if (time === null) return NO_FIGURE;
  return time.unlimited ? 'no limit' : minutesText(time.min, 'down');
}

/** "+12 min"; nothing where there is no gain to tell. */
export function gainText(min: number | null): string {
  if (min === null) return '';
  const shown = numberText(min, 0, 'down');
  return min > 0 ? `+${shown}` : shown;
}

/** "34.8 %, mixed as 34 %" */
export function richestText(richest: RichestMix): string {
  if (!richest.reachesWithAir) return 'not even air';
  const whole = `${richest.percent} %`;
  return richest.tenthO2 === richest.percent / 100
    ? whole
    : `${percentText(richest.tenthO2, 'down', 1)}, so ${whole}`;
}

/** An amount in the trip's money. */
export function moneyText(cost: number, currency?: string): string {
  return wordsIn({ units: 'metric', clock: '24h' })(said`${moneySaid(cost, currency)}`);
}

/** Room in minutes, rounded down; `null` is no limit in reach, -Infinity past one that no shorter stay would keep. */
export function roomText(min: number | null): string {
  if (min === null) return 'no limit';
  return min === Number.NEGATIVE_INFINITY ? 'past' : minutesText(min, 'down');
}

/** Room of one dive of one diver, or which limit it is past without a figure. */
export function roomOfDive(entry: Entry, { min, minLimit }: MinutesRoom): string {
  return min === null && minLimit !== null ? noMinutesText(entry, minLimit) : roomText(min);
}

/** A list by its shares, for keys. */
export function listKey({ percents }: Pick<StockList, 'percents'>): string {
  return percents.join('-');
}
