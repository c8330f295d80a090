import type { ReactNode } from 'react';
import type { Dive } from '../../../../core/document/types';
import { Folded } from '../../../parts/folded';
import { lazily } from '../../../parts/lazily';
import { STAND_IN } from '../stand-in';

/** Few dives say more than depth and time: the fields are loaded when somebody opens them. */
const PlanFields = lazily(
  () => import('./plan-fields'),
  (part) => part.PlanFields,
  STAND_IN,
);

/** What a dive can say beyond depth and time: its levels, its stop, when to turn. Out of the way until asked for. */
export function PlanDetails({ dive }: { readonly dive: Dive }): ReactNode {
  const levels = dive.legs?.length ?? 1;
  const says = [
    levels > 1 ? `${levels} levels` : '',
    dive.safetyStop === undefined ? '' : dive.safetyStop === null ? 'no safety stop' : 'its own safety stop',
    dive.turnShare === undefined ? '' : 'its own turn',
  ].filter(Boolean);
  return (
    <Folded about={dive.id} summary={`Levels, stop and turn${says.length > 0 ? `: ${says.join(', ')}` : ''}`}>
      {() => <PlanFields dive={dive} />}
    </Folded>
  );
}
