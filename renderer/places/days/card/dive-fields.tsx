import type { ReactNode } from 'react';
import { siteOf } from '../../../../core/document/site-of';
import type { Dive, Site } from '../../../../core/document/types';
import { figure, said } from '../../../../core/words/said';
import { BEST_MIX, mixSaid } from '../../../../core/words/terms';
import { goToSite, setBottomMin, setDepth, setMix, setStart, takeSiteDepth } from '../../../actions/dives';
import { tell } from '../../../actions/edit';
import { showOverlay } from '../../../actions/view';
import { Choice } from '../../../parts/choice';
import { MomentFields } from '../../../parts/moment-fields';
import { MinutesField, UnitField } from '../../../parts/number-field';
import { useWords } from '../../../parts/use-words';
import { shownEntry } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import styles from './dive-fields.module.css';

/** What the last of the sites stands for: one that is not there yet. */
const NEW_SITE = '';

/** That a dive goes deeper than its site, and the site's depth to take in one press. */
function TooDeep({ dive, site }: { readonly dive: Dive; readonly site: Site }): ReactNode {
  const words = useWords();
  return (
    <>
      {words(said`The dive goes deeper than the site.`)}{' '}
      <button type="button" className="linked" onClick={() => void tell(takeSiteDepth(dive.id))}>
        {words(said`Use its depth, ${figure('depthSet', site.depthM)}`)}
      </button>
    </>
  );
}

/** What is planned, each figure a field. */
export function DiveFields({ dive }: { readonly dive: Dive }): ReactNode {
  const words = useWords();
  const sites = useDesk(({ trip }) => trip.sites);
  const mixes = useDesk(({ trip }) => trip.mixes);
  const breathed = useDesk((state) => shownEntry(state, dive.id)?.mix ?? null);
  const site = siteOf({ sites }, dive);
  const isTooDeep = site !== undefined && dive.depthM > site.depthM;
  const levels = dive.legs?.length ?? 1;
  return (
    <div className={styles.fields}>
      <Choice
        label={words(said`Site`)}
        value={dive.siteId}
        options={[
          ...sites.map(({ id, name }) => ({ value: id, label: name })),
          { value: NEW_SITE, label: words(said`New site…`) },
        ]}
        commit={(siteId) =>
          siteId === NEW_SITE
            ? showOverlay({ kind: 'new-site', diveIds: [dive.id] })
            : void tell(goToSite([dive.id], siteId))
        }
        className={styles.site!}
        wide
        hint={site && isTooDeep ? <TooDeep dive={dive} site={site} /> : undefined}
      />
      <MomentFields
        dayLabel={words(said`Day`)}
        timeLabel={words(said`Start`)}
        value={dive.startsAt}
        commit={(startsAt) => setStart(dive.id, startsAt)}
      />
      <UnitField
        label={words(said`Depth`)}
        kind="depth"
        value={dive.depthM}
        commit={(depthM) => setDepth(dive.id, depthM)}
        hint={levels > 1 ? words(said`deepest of ${levels}`) : undefined}
      />
      <MinutesField
        label={words(said`Bottom time`)}
        value={dive.bottomMin}
        commit={(min) => setBottomMin(dive.id, min)}
      />
      <Choice
        label={words(said`Mix`)}
        value={dive.mix}
        options={[
          {
            value: 'auto',
            label: words(breathed === null ? BEST_MIX : said`Best, ${mixSaid(breathed.o2)}`),
          },
          ...mixes.map(({ id, o2 }) => ({ value: id, label: words(mixSaid(o2)) })),
        ]}
        commit={(mix) => tell(setMix(dive.id, mix))}
      />
    </div>
  );
}
