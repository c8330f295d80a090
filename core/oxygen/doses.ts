import type { Leg } from '../profile';
import { cnsFraction } from './cns';
import { dailyPieces, type ClockPiece } from './cns-day';
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
}

interface Known {
  readonly startMin: number;
  readonly doses: OxygenDoses;
}

/** Doses depend on legs, mix and start alone, so the divers of a party on one mix share them. */
const known = new WeakMap<readonly Leg[], Map<number, Known>>();

/**
 * The doses of a dive on every clock, kept while the legs are the same array.
 * @param legs in order, surface to surface @param o2 oxygen fraction, 0 to 1 @param startMin wall minutes
 * Source: each clock as in its own module.
 */
export function oxygenDoses(legs: readonly Leg[], o2: number, startMin: number): OxygenDoses {
  let byMix = known.get(legs);
  if (!byMix) known.set(legs, (byMix = new Map()));
  const kept = byMix.get(o2);
  if (kept?.startMin === startMin) return kept.doses;
  const doses = {
    cns: cnsFraction(legs, o2, 'single'),
    otu: otu(legs, o2),
    esot: esot(legs, o2),
    pieces: dailyPieces(legs, o2, startMin),
  };
  byMix.set(o2, { startMin, doses });
  return doses;
}
