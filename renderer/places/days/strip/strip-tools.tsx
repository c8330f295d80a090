import type { ReactNode } from 'react';
import { chooseDiver } from '../../../actions/view';
import { useDesk } from '../../../store/store';
import type { Zoom } from './use-zoom';

interface StripToolsProps {
  readonly zoom: Zoom;
  readonly isTable: boolean;
  readonly onTable: (isTable: boolean) => void;
  readonly hasCompartments: boolean;
  readonly onCompartments: (has: boolean) => void;
}

/** How the strip is looked at: whose figures, how close, curves or table. */
export function StripTools({
  zoom,
  isTable,
  onTable,
  hasCompartments,
  onCompartments,
}: StripToolsProps): ReactNode {
  const party = useDesk((state) => state.trip.party);
  const diverId = useDesk((state) => state.selection.diverId);
  return (
    <div className="strip-tools" role="group" aria-label="How the strip is shown">
      <label className="strip-whose">
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
      <button
        type="button"
        className="plain"
        aria-pressed={hasCompartments}
        onClick={() => onCompartments(!hasCompartments)}
      >
        All 16 compartments
      </button>
      <button type="button" className="plain" aria-pressed={isTable} onClick={() => onTable(!isTable)}>
        As a table
      </button>
      <span className="strip-zoom">
        <button type="button" className="plain" disabled={zoom.isClosest} onClick={() => zoom.closer()}>
          Closer
        </button>
        <button type="button" className="plain" disabled={zoom.isWhole} onClick={() => zoom.further()}>
          Further
        </button>
        <button type="button" className="plain" disabled={zoom.isWhole} onClick={zoom.whole}>
          Whole trip
        </button>
      </span>
    </div>
  );
}
