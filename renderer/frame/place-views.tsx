import { lazy, type ComponentType } from 'react';
import type { Settings } from '../../core/host';
import { Days } from '../places/days/days';

/** What each place shows. Days is part of the first load; the others come when they are first gone to. */
export const PLACE_VIEWS: Partial<Record<Settings['place'], ComponentType>> = {
  days: Days,
  sites: lazy(() => import('../places/sites/sites').then(({ Sites }) => ({ default: Sites }))),
  mixes: lazy(() => import('../places/mixes/mixes').then(({ Mixes }) => ({ default: Mixes }))),
  party: lazy(() => import('../places/party/party').then(({ Party }) => ({ default: Party }))),
  slates: lazy(() => import('../places/slates/slates').then(({ Slates }) => ({ default: Slates }))),
};
