/** By how much dives turn out otherwise than planned, and the whole steps in which that is drawn. */
import type { Scatter, Trip } from '../document/types';

/**
 * Standard deviations where the trip names no others: depth of a dive, its bottom time and its start, the gas rate of each
 * diver on each dive as a share of what is planned, the oxygen in each cylinder as a fraction.
 * Source: this project's own choice, as no measured spread was found; that a deepest point is kept to about a metre, and
 * that an analyser reads to half a percent, is common practice.
 */
export const USUAL_SCATTER: Scatter = { depthM: 1, bottomMin: 2, startMin: 10, rateShare: 0.1, o2: 0.005 };

/** What scatters, in the order in which it is told. */
export const SCATTERS = ['depthM', 'bottomMin', 'startMin', 'rateShare', 'o2'] as const;

/** One of them. */
export type ScatterName = (typeof SCATTERS)[number];

/** Nothing scatters: every run is the plan itself. */
export const NO_SCATTER: Scatter = { depthM: 0, bottomMin: 0, startMin: 0, rateShare: 0, o2: 0 };

/** What a trip's dives scatter by: its own amounts, else the usual ones. Source: as `USUAL_SCATTER`. */
export function scatterOf({ settings }: Pick<Trip, 'settings'>): Scatter {
  return { ...USUAL_SCATTER, ...settings.scatter };
}

/**
 * Depth is drawn in whole centimetres, time in whole seconds and starts in whole minutes: what a step does to a
 * compartment then stands in a table. No diver keeps any of them as closely.
 */
export const CM = 100;
export const SECONDS = 60;

/** No draw lies further out than so many standard deviations: 6 in 100,000 would. Source: this project's own. */
export const FURTHEST = 4;

/** No level is drawn shallower, metres. Source: the trip file's own range of depths. */
export const SHALLOWEST_M = 1;

/** A last level is not drawn shorter than this, minutes, unless it is planned so. Source: this project's own. */
export const LEAST_STAY_MIN = 1;
