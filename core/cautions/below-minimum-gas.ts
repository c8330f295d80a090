import { figure, said } from '../words/said';
import { contentL, pressureBar } from '../supply';
import { lasts } from './gas-lasts';
import { DUST, eachMadeDive, told, type Rule } from './rule';

/** Less than the minimum gas on leaving the bottom. Source: as in the rule. */
export const belowMinimumGas: Rule = {
  code: 'below-minimum-gas',
  severity: 'change',
  source: said`common practice: gas for two divers from the deepest point to the surface`,
  find: eachMadeDive((entry, place) => {
    const { contentL: filledL, usedAtLeavingL, minimumBar } = entry.gas;
    const { waterL, fillBar } = entry.diver.cylinder;
    if (filledL === null || usedAtLeavingL === null || minimumBar === null || entry.o2 === null) return null;
    const law = place.ledger.trip.settings.gasLaw;
    const minimumL = contentL(waterL, minimumBar, entry.o2, law);
    if (filledL - usedAtLeavingL >= minimumL - DUST) return null;
    const needed = figure('pressureNeeded', minimumBar);
    if (filledL < minimumL) {
      const mend =
        (entry.stops?.length ?? 0) > 0
          ? said`stay inside the no-stop limit`
          : said`take a larger cylinder, or stay shallower`;
      return told(
        entry,
        said`A fill of ${figure('pressureLeft', fillBar)} is less than the minimum gas of ${needed} for this dive`,
        mend,
      );
    }
    const leftBar = pressureBar(waterL, filledL - usedAtLeavingL, entry.o2, law);
    const left = leftBar === null ? said`nothing` : figure('pressureLeft', leftBar);
    const finding = said`The minimum gas of ${needed} is reached ${lasts(entry, minimumBar, place)}, and ${left} is left on leaving the bottom`;
    return told(entry, finding, said`turn earlier, stay shallower, or take a larger cylinder`);
  }),
};
