import type { Leg } from '../profile';
import { bothClocks, type ClockPiece } from './clock-pieces';
import { esot } from './esot';
import { otu } from './otu';

/** What one dive adds to every oxygen clock. */
export interface OxygenDoses {
  /** Share of the single-exposure limit; null above 1.6 bar. */
  readonly cns: number | null;
  readonly otu: number;
  readonly esot: number;
  /** The dive as the rolling 24 h clock sees it; null above 1.6 bar. */
  readonly pieces: readonly ClockPiece[] | null;
  /** Share of the daily limit, all pieces together; null as they are. */
  readonly dailyShare: number | null;
}

/**
 * The doses of a dive on every clock.
 * @param legs in order, surface to surface @param o2 oxygen fraction, 0 to 1 @param startMin wall minutes
 * Source: each clock as in its own module.
 */
export function oxygenDoses(legs: readonly Leg[], o2: number, startMin: number): OxygenDoses {
  const clocks = bothClocks(legs, o2, startMin);
  return {
    cns: clocks === null ? null : clocks.single,
    otu: otu(legs, o2),
    esot: esot(legs, o2),
    pieces: clocks === null ? null : clocks.daily,
    dailyShare: clocks === null ? null : clocks.dailyShare,
  };
}

/**
 * The doses last asked of one profile, by oxygen fraction: the divers of a party on one mix share them. Kept
 * with the profile rather than in a weak table of its own, which a drag would fill faster than it empties.
 */
export type KnownDoses = Map<number, { readonly startMin: number; readonly doses: OxygenDoses }>;

/** As `oxygenDoses`, asking only once for the same mix and start. Source: as there. */
export function sharedDoses(
  known: KnownDoses,
  legs: readonly Leg[],
  o2: number,
  startMin: number,
): OxygenDoses {
  const kept = known.get(o2);
  if (kept?.startMin === startMin) return kept.doses;
  const doses = oxygenDoses(legs, o2, startMin);
  known.set(o2, { startMin, doses });
  return doses;
}
