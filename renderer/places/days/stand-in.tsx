import type { StandIn } from '../../parts/lazily';

/** What stands in the place of a part of Days that is not there yet, or does not come. */
export const STAND_IN: StandIn = {
  waiting: null,
  failed: ({ what, mend }, again) => (
    <p className="care" role="alert">
      {what} {mend}{' '}
      <button type="button" className="linked" onClick={again}>
        Try again
      </button>
    </p>
  ),
};
