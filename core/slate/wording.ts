import { cautionsOf } from '../cautions/all';
import { wordingIn, type Wording } from '../cautions/wording';
import type { Caution, Ledger } from '../trip/ledger-types';
import { dateOf, momentText } from './contents';
import { po2LimitText, sentenceUnits, type SlateUnits } from './figures';

/** How sentences of a slate give figures, days and moments: as the rest of its page does. */
export function slateWording(units: SlateUnits): Wording {
  return {
    ...wordingIn(sentenceUnits(units), { moment: momentText, day: dateOf }),
    po2Limit: (bar) => `${po2LimitText(bar)} bar`,
  };
}

/** The cautions of a trip as its slates word them. @param ledger of the whole party */
export function slateCautions(ledger: Ledger, units: SlateUnits): readonly Caution[] {
  return cautionsOf(ledger, slateWording(units));
}
