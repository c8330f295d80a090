/** The gas of a dive on its card. */
import { loopModM } from '../../ledger/loop-said';
import type { Entry } from '../../ledger/ledger-types';
import { shown, type Reader, type Words } from '../../words/reader';
import { figure, NOTHING, said, type Figure, type Said } from '../../words/said';
import { mixSaid } from '../../words/terms';
import type { CardDive, CardFigure } from './content';

/**
 * What a diver on open circuit turns by, and on a loop has along, with how deep either may be taken.
 * Source: as `Entry` has them.
 */
export function gasFigures(
  { words, reader }: { readonly words: Words; readonly reader: Reader },
  { gas, loop, modM }: Entry,
): Pick<CardDive, 'turn' | 'minimum' | 'mod'> {
  const of = (label: Said, quantity: Figure['quantity'], si: number | null, instead: Said): CardFigure => ({
    caption: words(label),
    figures: si === null ? [] : shown(figure(quantity, si), reader),
    instead: si === null ? words(instead) : '',
  });
  if (loop !== null) {
    const { breathing, scrubber } = loop;
    return {
      turn: of(said`Diluent`, 'pressureNeeded', null, mixSaid(breathing.diluentO2)),
      minimum: of(said`Scrubber`, 'minutesLeft', scrubber.leftMin < 0 ? null : scrubber.leftMin, said`none`),
      mod: of(said`Bail-out MOD`, 'depthLimit', loopModM(loop), NOTHING),
    };
  }
  const noWay = said`none`;
  const noTurn = gas.minimumBar === null ? noWay : said`fill too low`;
  return {
    turn: of(said`Turn`, 'pressureNeeded', gas.turnBar, noTurn),
    minimum: of(said`Minimum`, 'pressureNeeded', gas.minimumBar, noWay),
    mod: of(said`MOD`, 'depthLimit', modM, said`no mix`),
  };
}
