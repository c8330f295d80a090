import { useState, type ReactNode } from 'react';
import type { Dive, Id, Site } from '../../../core/document/types';
import { setBottomMin, setDepth, setMix, setSite, setStart, takeSiteDepth } from '../../actions/dives';
import { tell } from '../../actions/edit';
import { depthText, mixText } from '../../figures/format';
import { Choice } from '../../parts/choice';
import { MomentFields } from '../../parts/moment-fields';
import { MinutesField, UnitField } from '../../parts/number-field';
import { shownEntry } from '../../store/selectors';
import { useDesk } from '../../store/store';

/** How deep the site goes, and its depth to take in one press. */
function SiteDepth({ dive, site }: { readonly dive: Dive; readonly site: Site }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const depth = depthText(site.depthM, units);
  return (
    <>
      {dive.depthM > site.depthM ? `The dive goes deeper than the site.` : `The site goes down to ${depth}.`}{' '}
      <button type="button" className="linked" onClick={() => void tell(takeSiteDepth(dive.id))}>
        Use its depth, {depth}
      </button>
    </>
  );
}

/** What is planned, each figure a field. */
export function DiveFields({ dive }: { readonly dive: Dive }): ReactNode {
  const sites = useDesk(({ trip }) => trip.sites);
  const mixes = useDesk(({ trip }) => trip.mixes);
  const breathed = useDesk((state) => shownEntry(state, dive.id)?.mix ?? null);
  // The site just chosen, where the dive had the depth of the one before.
  const [follows, setFollows] = useState<Id | null>(null);
  const site = sites.find(({ id }) => id === dive.siteId);
  const isOffered =
    site !== undefined && (dive.depthM > site.depthM || (follows === site.id && dive.depthM !== site.depthM));
  const auto =
    dive.mix === 'auto' && breathed ? `Richest that may (${mixText(breathed.o2)})` : 'Richest that may';
  return (
    <div className="dive-fields">
      <Choice
        label="Site"
        value={dive.siteId}
        options={sites.map(({ id, name }) => ({ value: id, label: name }))}
        commit={(siteId) => {
          // A depth that was the old site's was meant to follow it; one of its own is left alone.
          setFollows(dive.depthM === site?.depthM ? siteId : null);
          tell(setSite(dive.id, siteId));
        }}
        className="site"
        wide
        hint={site && isOffered ? <SiteDepth dive={dive} site={site} /> : undefined}
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
