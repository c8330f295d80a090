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
  sites: lazily(async () => (await import('../places/sites/sites')).Sites, STAND_IN),
  mixes: lazily(async () => (await import('../places/mixes/mixes')).Mixes, STAND_IN),
  party: lazily(async () => (await import('../places/party/party')).Party, STAND_IN),
  slates: lazily(async () => (await import('../places/slates/slates')).Slates, STAND_IN),
};
