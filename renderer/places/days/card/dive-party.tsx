import type { ReactNode } from 'react';
import type { Dive } from '../../../../core/document/types';
import { said, type Said } from '../../../../core/words/said';
import { Folded } from '../../../parts/folded';
import { lazily } from '../../../parts/lazily';
import { useWords } from '../../../parts/use-words';
import { useDesk } from '../../../store/store';
import { STAND_IN } from '../stand-in';

/** Who goes and who stays is set before the trip, and seldom changed. */
const PartyTicks = lazily(
  () => import('./party-ticks'),
  (part) => part.PartyTicks,
  STAND_IN,
);

/** Who dives one dive, or several: ticks, out of the way until asked for. Each tick is one step, for all of the dives. */
export function DiveParty({ dives }: { readonly dives: readonly Dive[] }): ReactNode {
  const words = useWords();
  const party = useDesk(({ trip }) => trip.party);
  if (party.length < 2) return null;
  return (
    <Folded about={dives.map(({ id }) => id).join(' ')} summary={words(summarySaid(dives, party.length))}>
      {() => <PartyTicks dives={dives} party={party} />}
    </Folded>
  );
}

function summarySaid(dives: readonly Dive[], partySize: number): Said {
  const sizes = dives.map(({ divers }) => divers?.length ?? partySize);
  const fewest = Math.min(...sizes);
  const most = Math.max(...sizes);
  if (fewest < most) return said`Dived by ${fewest} to ${most} of ${partySize}`;
  if (fewest < partySize) return said`Dived by ${fewest} of ${partySize}`;
  return dives.length === 1 ? said`The whole party dives it` : said`The whole party dives them`;
}
