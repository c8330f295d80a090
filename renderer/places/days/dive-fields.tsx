import type { ReactNode } from 'react';
import type { Dive } from '../../../core/document/types';
import { setBottomMin, setDepth, setMix, setSite, setStart } from '../../actions/dives';
import { tell } from '../../actions/edit';
import { mixText } from '../../figures/format';
import { Choice } from '../../parts/choice';
import { MomentFields } from '../../parts/moment-fields';
import { MinutesField, UnitField } from '../../parts/number-field';
import { shownEntry } from '../../store/selectors';
import { useDesk } from '../../store/store';

/** What is planned, each figure a field. */
export function DiveFields({ dive }: { readonly dive: Dive }): ReactNode {
  const sites = useDesk(({ trip }) => trip.sites);
  const mixes = useDesk(({ trip }) => trip.mixes);
  const breathed = useDesk((state) => shownEntry(state, dive.id)?.mix ?? null);
  const auto =
    dive.mix === 'auto' && breathed ? `Richest that may (${mixText(breathed.o2)})` : 'Richest that may';
  return (
    <div className="dive-fields">
      <Choice
        label="Site"
        value={dive.siteId}
        options={sites.map(({ id, name }) => ({ value: id, label: name }))}
        commit={(siteId) => tell(setSite(dive.id, siteId))}
        className="site"
        wide
      />
      <MomentFields
        dayLabel="Day"
        timeLabel="Start"
        value={dive.startsAt}
        commit={(startsAt) => setStart(dive.id, startsAt)}
      />
      <UnitField
        label="Depth"
        kind="depth"
        value={dive.depthM}
        commit={(depthM) => setDepth(dive.id, depthM)}
        hint={dive.legs && dive.legs.length > 1 ? `The deepest of ${dive.legs.length} levels` : undefined}
      />
      <MinutesField label="Bottom time" value={dive.bottomMin} commit={(min) => setBottomMin(dive.id, min)} />
      <Choice
        label="Mix"
        value={dive.mix}
        options={[
          { value: 'auto', label: auto },
          ...mixes.map(({ id, o2 }) => ({ value: id, label: mixText(o2) })),
        ]}
        commit={(mix) => tell(setMix(dive.id, mix))}
        wide
      />
    </div>
  );
}
