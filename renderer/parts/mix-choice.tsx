import type { ReactNode } from 'react';
import { mixSaid } from '../../core/words/terms';
import { tell, type EditResult } from '../actions/edit';
import { useDesk } from '../store/store';
import { Choice } from './choice';
import { useWords } from './use-words';

/** One of the mixes on board. */
export function MixChoice(props: {
  readonly label: string;
  readonly value: string;
  readonly commit: (mix: string) => EditResult;
}): ReactNode {
  const words = useWords();
  const mixes = useDesk(({ trip }) => trip.mixes);
  const options = mixes.map(({ id, o2 }) => ({ value: id, label: words(mixSaid(o2)) }));
  return (
    <Choice
      label={props.label}
      value={props.value}
      options={options}
      commit={(mix) => void tell(props.commit(mix))}
    />
  );
}
