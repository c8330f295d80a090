import { useMemo, type ReactNode } from 'react';
import { richestMix, usableModM } from '../../../core/mixes/richest';
import {
  isSameShare,
  LEANEST_PERCENT,
  poolOf,
  RICHEST_PERCENT,
  type StockRequest,
} from '../../../core/mixes/shares';
import type { Site, Trip } from '../../../core/document/types';
import { surroundingsOfSite } from '../../../core/document/waters';
import { surroundingsOf } from '../../../core/profile';
import { figure, listed, said } from '../../../core/words/said';
import { useWords } from '../../parts/use-words';
import styles from './stock-edge.module.css';

const PERCENTS = Array.from({ length: RICHEST_PERCENT - LEANEST_PERCENT + 1 }, (_, i) => LEANEST_PERCENT + i);

type Standing = 'out' | 'open' | 'fixed' | 'excluded';

const SAID: Readonly<Record<Standing, string>> = {
  out: 'not asked for',
  open: 'may be stocked',
  fixed: 'in every list',
  excluded: 'in no list',
};

const CLASSES: Readonly<Record<Standing, string | undefined>> = {
  out: styles.out,
  open: styles.open,
  fixed: styles.fixed,
  excluded: styles.excluded,
};

/** What a press makes of a share: always, never, and as it was. */
function pressed(request: StockRequest, percent: number, standing: Standing): StockRequest {
  const others = (percents: readonly number[]) => percents.filter((each) => each !== percent);
  const isFixed = standing === 'open' || standing === 'out';
  const isExcluded = standing === 'fixed';
  return {
    ...request,
    fixedPercents: [...others(request.fixedPercents), ...(isFixed ? [percent] : [])],
    excludedPercents: [...others(request.excludedPercents), ...(isExcluded ? [percent] : [])],
  };
}

/** Sites by the richest share that suits everybody there. */
function sitesByShare(trip: Trip): ReadonlyMap<number, readonly Site[]> {
  const byShare = new Map<number, Site[]>();
  for (const site of trip.sites) {
    const around = surroundingsOfSite(trip, site);
    const percent = Math.min(
      ...trip.party.map((diver) => richestMix(site.depthM, diver, trip, around).percent),
      RICHEST_PERCENT,
    );
    byShare.set(percent, [...(byShare.get(percent) ?? []), site]);
  }
  return byShare;
}

/**
 * The shares to choose from as the graduated edge of a chart: how deep each goes above, the sites it is the richest
 * for below.
 */
export function StockEdge(props: {
  readonly trip: Trip;
  readonly request: StockRequest;
  readonly change: (request: StockRequest) => void;
  readonly recommended: readonly number[];
}): ReactNode {
  const { trip, request, change, recommended } = props;
  const words = useWords();
  const pool = useMemo(() => poolOf(request, trip.mixes), [request, trip.mixes]);
  const sites = useMemo(() => sitesByShare(trip), [trip]);
  const mods = useMemo(() => {
    const around = surroundingsOf(trip);
    return PERCENTS.map((percent) => {
      // The share itself, at what everybody may breathe of it.
      const mix = trip.mixes.find((each) => isSameShare(each.o2, percent / 100)) ?? {
        id: '',
        o2: percent / 100,
        costPerFill: 0,
      };
      return Math.min(...trip.party.map((diver) => usableModM(mix, diver, trip, around)));
    });
  }, [trip]);
  const standingOf = (percent: number): Standing => {
    if (request.fixedPercents.includes(percent)) return 'fixed';
    if (request.excludedPercents.includes(percent)) return 'excluded';
    return pool.includes(percent) ? 'open' : 'out';
  };
  return (
    <fieldset className={styles.edge}>
      <legend className="unseen">
        Oxygen in percent. Press a share once to have it in every list, twice to have it in none
      </legend>
      <span className={styles.rowName} aria-hidden="true">
        MOD
        <br />
        Oxygen, %
      </span>
      {PERCENTS.map((percent, i) => {
        const standing = standingOf(percent);
        const here = sites.get(percent) ?? [];
        const isEven = percent % 2 === 0;
        return (
          <span key={percent} className={styles.share}>
            <span className={styles.mod} aria-hidden="true">
              {isEven && Number.isFinite(mods[i]!) ? words(said`${figure('depthLimit', mods[i]!)}`) : ''}
            </span>
            <button
              type="button"
              className={`${styles.mark} ${CLASSES[standing]} ${recommended.includes(percent) ? styles.recommended : ''}`}
              aria-label={`${percent} %, ${SAID[standing]}`}
              title={`${percent} %: ${SAID[standing]}. MOD ${words(said`${figure('depthLimit', mods[i]!)}`)}${
                here.length === 0
                  ? ''
                  : `. Richest for ${words(said`${listed(here.map(({ name }) => name))}`)}`
              }`}
              onClick={() => change(pressed(request, percent, standing))}
            >
              {percent}
            </button>
            {here.length === 0 ? null : (
              <span className={styles.site}>
                {here.length === 1 ? here[0]!.name : `${here.length} sites`}
                <span className="unseen"> at the richest: {percent} %</span>
              </span>
            )}
          </span>
        );
      })}
    </fieldset>
  );
}
