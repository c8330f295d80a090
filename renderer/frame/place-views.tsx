import type { ComponentType } from 'react';
import type { Settings } from '../../core/host';
import { lazily, type StandIn } from '../parts/lazily';
import { Days } from '../places/days/days';

const STAND_IN: StandIn = {
  waiting: <p className="waiting">One moment…</p>,
  failed: ({ what, mend }, again) => (
    <div className="waiting" role="alert">
      <p>
        {what} {mend}
      </p>
      <p>
        <button type="button" className="button first" onClick={again}>
          Try again
        </button>
      </p>
    </div>
  ),
};

/** What each place shows. Days is part of the first load; the others come when they are first gone to. */
export const PLACE_VIEWS: Partial<Record<Settings['place'], ComponentType>> = {
  days: Days,
  sites: lazily(
    () => import('../places/sites/sites'),
    (part) => part.Sites,
    STAND_IN,
  ),
  mixes: lazily(
    () => import('../places/mixes/mixes'),
    (part) => part.Mixes,
    STAND_IN,
  ),
  party: lazily(
    () => import('../places/party/party'),
    (part) => part.Party,
    STAND_IN,
  ),
  slates: lazily(
    () => import('../places/slates/slates'),
    (part) => part.Slates,
    STAND_IN,
  ),
};
