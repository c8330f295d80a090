import type { ReactNode } from 'react';
import { chooseDiver } from '../../../actions/view';
import { desk, useDesk } from '../../../store/store';
import type { DiveView } from './dive-view';
import type { Zoom } from './use-zoom';
import styles from './strip.module.css';

interface StripToolsProps {
  readonly zoom: Zoom;
  readonly isTable: boolean;
  readonly onTable: (isTable: boolean) => void;
  readonly hasCompartments: boolean;
  readonly onCompartments: (has: boolean) => void;
  /** The mix that is not named at the weights. */
  readonly commonMix: string;
  readonly views: readonly DiveView[];
  /** When the first dive ahead begins; null where all are, or none. */
  readonly aheadMin: number | null;
}

/** How the strip is looked at: whose figures, how close, curves or table. */
export function StripTools({
  zoom,
  isTable,
  onTable,
  hasCompartments,
  onCompartments,
  commonMix,
  views,
  aheadMin,
}: StripToolsProps): ReactNode {
  const party = useDesk((state) => state.trip.party);
  const diverId = useDesk((state) => state.selection.diverId);
  /** That of the first chosen dive, else the first. */
  const showDay = (): void => {
    const { diveIds } = desk.getState().selection;
    zoom.day((views.find(({ id }) => diveIds.includes(id)) ?? views[0])?.startMin ?? 0);
  };
  return (
    <div className={styles.tools} role="group" aria-label="How the strip is shown">
      <label className={styles.whose}>
        Shown{' '}
        <select
          value={diverId ?? ''}
          onChange={(event) => chooseDiver(event.target.value === '' ? null : event.target.value)}
        >
          <option value="">the tightest of the party</option>
          {party.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      {commonMix !== '' && <span>{commonMix} where not named</span>}
      <button
        type="button"
        className="plain"
        aria-pressed={hasCompartments}
        onClick={() => onCompartments(!hasCompartments)}
      >
        All 16 compartments
      </button>
      <button
        type="button"
        className="plain"
        aria-pressed={isTable}
        aria-label="As figures: curves as a table"
        onClick={() => onTable(!isTable)}
      >
        As figures
      </button>
      <span className={styles.zoom}>
        <button type="button" aria-label="Zoom out" disabled={zoom.isWhole} onClick={() => zoom.further()}>
          −
        </button>
        <button type="button" aria-pressed={zoom.isWhole} onClick={zoom.whole}>
          Whole trip
        </button>
        {aheadMin !== null && (
          <button
            type="button"
            aria-pressed={zoom.isAhead(aheadMin)}
            title="The days ahead (9)"
            onClick={() => zoom.ahead(aheadMin)}
          >
            Days ahead
          </button>
        )}
        <button type="button" aria-pressed={zoom.isDay} onClick={showDay}>
          Day
        </button>
        <button type="button" aria-label="Zoom in" disabled={zoom.isClosest} onClick={() => zoom.closer()}>
          +
        </button>
      </span>
    </div>
  );
}
