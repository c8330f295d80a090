import type { ReactNode } from 'react';
import { mixO2 } from '../../../core/ledger/mix-choice';
import type { Dive, Diver, Id } from '../../../core/document/types';
import { goToDives } from '../../actions/view';
import { countText, dateText, mixText, percentText, unitText } from '../../figures/format';
import { useDesk } from '../../store/store';
import type { SiteRow } from './site-rows';
import styles from './site-table.module.css';

function namesOf(divers: readonly Diver[]): string {
  return divers.length > 2
    ? `${countText(divers.length)} divers`
    : divers.map(({ name }) => name).join(' and ');
}

/** The mix on board that everybody may breathe there, the richest there could be, and whom the site does not suit. */
export function MixHere({ row }: { readonly row: SiteRow }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const isParty = useDesk(({ trip }) => trip.party.length > 1);
  const { mixForAll, withoutMix, tooDeepFor, richest } = row;
  const isWhole = richest.tenthO2 === richest.percent / 100;
  const deepestForAllM = Math.min(...tooDeepFor.map(({ maxDepthM }) => maxDepthM));
  return (
    <td className={styles.mix}>
      <span className={mixForAll ? 'figure' : 'figure care'}>
        {mixForAll ? mixText(mixO2(mixForAll)) : withoutMix.length > 0 ? 'none on board' : 'no one mix'}
      </span>
      <span className={styles.cellNote}>
        {richest.reachesWithAir ? (
          <>
            up to {percentText(richest.tenthO2, 'down', isWhole ? 0 : 1)}
            {isParty ? `, by ${richest.diver.name}` : ''}
          </>
        ) : (
          `not even air, by ${richest.diver.name}`
        )}
      </span>
      {withoutMix.length > 0 && isParty ? (
        <span className={`${styles.cellNote} care`}>nothing on board for {namesOf(withoutMix)}</span>
      ) : null}
      {tooDeepFor.length > 0 ? (
        <span className={`${styles.cellNote} care`}>
          {namesOf(tooDeepFor)}: to {unitText(deepestForAllM, 'depth', units, 'down')} only
        </span>
      ) : null}
    </td>
  );
}

interface DayHere {
  readonly date: string;
  readonly diveIds: readonly Id[];
}

function daysOf(dives: readonly Dive[]): readonly DayHere[] {
  const dates = [...new Set(dives.map(({ startsAt }) => startsAt.slice(0, 10)))];
  return dates.map((date) => ({
    date,
    diveIds: dives.filter(({ startsAt }) => startsAt.startsWith(date)).map(({ id }) => id),
  }));
}

/** How often a site is dived, and on which days; a day leads to its dives. */
export function DivesHere({ row }: { readonly row: SiteRow }): ReactNode {
  const { site, dives } = row;
  return (
    <>
      <td className={`${styles.dives} figure`}>
        {dives.length === 0 ? <span className="soft">none</span> : dives.length}
      </td>
      <td className={styles.when}>
        {daysOf(dives).map(({ date, diveIds }) => (
          <button
            key={date}
            type="button"
            className="linked"
            aria-label={`${dateText(date)}: ${diveIds.length === 1 ? 'the dive' : `${diveIds.length} dives`} at ${site.name}`}
            onClick={() => goToDives(diveIds)}
          >
            {dateText(date)}
            {diveIds.length > 1 ? ` ×${diveIds.length}` : ''}
          </button>
        ))}
      </td>
    </>
  );
}
