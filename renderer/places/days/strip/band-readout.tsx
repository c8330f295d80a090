/** What a moment of the bands says in words. */
import type { ReactNode } from 'react';
import { momentInWater, type MomentInWater } from '../../../../core/ledger/straight-up';
import { momentAt } from '../../../../core/words/calendar';
import { figure, said, type Said } from '../../../../core/words/said';
import { useWords } from '../../../parts/use-words';
import { selectShownLedger } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import type { BandPoint } from './band-data';
import styles from './bands.module.css';

/** A point with the share of every compartment, where those are drawn. */
export type FullPoint = BandPoint & { readonly shares?: readonly number[] };

interface ReadoutProps {
  readonly at: FullPoint;
}

const NO_BREAK = '\u00a0';

/** At the surface no depth is told. */
const SURFACE_M = 0.05;

function whenSaid({ atMin, depthM }: BandPoint): Said {
  const at = momentAt(Math.round(atMin));
  return depthM > SURFACE_M ? said`${at} at ${figure('depthMet', depthM)}` : said`${at} at the surface`;
}

/** What staying at the depth comes to. */
function stayingSaid({ stayMin, fractionOfLimit }: MomentInWater): Said {
  if (stayMin === Infinity) return said`staying: no limit in reach`;
  if (fractionOfLimit > 1) return said`past the limit`;
  return said`staying: limit in ${figure('minutesLeft', stayMin)}`;
}

/** Each compartment in words, where all are drawn: sixteen lines cannot be told apart by eye. */
function AllCompartments({ shares }: { readonly shares: readonly number[] }): ReactNode {
  const words = useWords();
  const each = shares.map((share, i) =>
    words(said`${i + 1}: ${figure('shareMet', share)}`).replaceAll(' ', NO_BREAK),
  );
  return <span className={styles.all}>{each.join('  ')}</span>;
}

/** How near the limit the diver would surface, and how long until that is all of it. */
export function NitrogenReadout({ at }: ReadoutProps): ReactNode {
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const shown = useDesk(selectShownLedger);
  const entry = shown?.entries.find(
    ({ isMade, startMin, surfacesMin }) => isMade && startMin < at.atMin && at.atMin < surfacesMin,
  );
  const moment = entry && at.depthM > SURFACE_M ? momentInWater(entry, trip, at.atMin) : null;
  const share = figure('shareMet', at.share);
  return (
    <p className={styles.readout} data-part="readout" role="status">
      <strong>{words(whenSaid(at))}</strong>{' '}
      {moment === null
        ? words(said`${share} of the limit, compartment ${at.compartment} leads`)
        : words(
            said`up now: ${share} of the limit, compartment ${at.compartment} leads; ${stayingSaid(moment)}`,
          )}
      {at.shares && <AllCompartments shares={at.shares} />}
    </p>
  );
}

/** The clocks of oxygen. */
export function OxygenReadout({ at }: ReadoutProps): ReactNode {
  const words = useWords();
  return (
    <p className={styles.readout} data-part="readout" role="status">
      <strong>{words(whenSaid(at))}</strong>{' '}
      {words(said`CNS clock ${figure('shareMet', at.cns)}, over 24 h ${figure('shareMet', at.cnsDay)}`)}
    </p>
  );
}
