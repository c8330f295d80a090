import { contentL, pressureBar } from '../supply';
import { lasts } from './gas-lasts';
import { DUST, eachMadeDive, told, type Rule } from './rule';

/** Less than the minimum gas on leaving the bottom. Source: as in the rule. */
export const belowMinimumGas: Rule = {
  code: 'below-minimum-gas',
  severity: 'change',
  source: 'common practice: gas for two divers from the deepest point to the surface',
  find: eachMadeDive((entry, place) => {
    const { contentL: filledL, usedAtLeavingL, minimumBar } = entry.gas;
    const { waterL, fillBar } = entry.diver.cylinder;
    if (filledL === null || usedAtLeavingL === null || minimumBar === null || entry.o2 === null) return null;
    const { say } = place;
    const law = place.ledger.trip.settings.gasLaw;
    const minimumL = contentL(waterL, minimumBar, entry.o2, law);
    if (filledL - usedAtLeavingL >= minimumL - DUST) return null;
    const needed = say.pressureNeeded(minimumBar);
    if (filledL < minimumL) {
      const mend =
        (entry.stops?.length ?? 0) > 0
          ? 'stay inside the no-stop limit'
          : 'take a larger cylinder, or stay shallower';
      return told(
        entry,
        `A fill of ${say.pressureLeft(fillBar)} is less than the minimum gas of ${needed} for this dive`,
        mend,
      );
    }
    const leftBar = pressureBar(waterL, filledL - usedAtLeavingL, entry.o2, law);
    const left = leftBar === null ? 'nothing' : say.pressureLeft(leftBar);
    const finding = `The minimum gas of ${needed} is reached ${lasts(entry, minimumBar, place)}, and ${left} is left on leaving the bottom`;
    return told(entry, finding, 'turn earlier, stay shallower, or take a larger cylinder');
  }),
};
