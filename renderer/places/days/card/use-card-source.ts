import type { Entry } from '../../../../core/ledger/ledger-types';
import { roomOfEntry, secondOpinionOf } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import type { CardSource } from './card-figures';

/** What the figures of a dive are of; null for a dive that is not made. */
export function useCardSource(entry: Entry | null): CardSource | null {
  const made = entry?.isMade === true ? entry : null;
  const room = useDesk((state) => made && roomOfEntry(state, made));
  const opinion = useDesk((state) => made && secondOpinionOf(state, made));
  return made && room && { entry: made, room, opinion };
}
