import { cautionsOf } from '../cautions/all';
import { wordingIn, type Wording } from '../cautions/wording';
import type { Ledger } from '../ledger/ledger-types';
import { dateOf, momentText } from './contents';
import { joined, po2LimitText, pressuresDown, pressuresUp, sentenceUnits, type SlateUnits } from './figures';
import type { Caution } from '../cautions/caution';

/** How sentences of a slate give figures, days and moments: as the rest of its page does. */
export function slateWording(units: SlateUnits): Wording {
  const one = sentenceUnits(units);
  return {
    ...wordingIn(one, { moment: momentText, day: dateOf }),
    pressureLeft: (bar) => joined(pressuresDown(bar, one)),
    pressureNeeded: (bar) => joined(pressuresUp(bar, one)),
    po2Limit: (bar) => `${po2LimitText(bar)} bar`,
  };
}

/** The cautions of a trip as its slates word them. @param ledger of the whole party */
export function slateCautions(ledger: Ledger, units: SlateUnits): readonly Caution[] {
  return cautionsOf(ledger, slateWording(units));
}
