import type { ReactNode } from 'react';
import { wallMin, wallText } from '../../../core/words/calendar';
import { dayOf, figure, said } from '../../../core/words/said';
import type { Diver, Trip } from '../../../core/document/types';
import { tell } from '../../actions/edit';
import {
  setArrival,
  setCylinder,
  setDepthLimit,
  setDiverName,
  setGradient,
  setOxygenCeiling,
  setPo2Limits,
  setSurfaceRate,
} from '../../actions/party';
import { planWithRate } from '../../actions/log';
import { todayText } from '../../figures/local-time';
import { TextField } from '../../parts/field';
import { MomentFields } from '../../parts/moment-fields';
import { PlainNumberField, ShareField, UnitField } from '../../parts/number-field';
import { useWords } from '../../parts/use-words';
import { useDesk } from '../../store/store';
import { CylinderField, DepthLimitField, FillField, GasRateField } from './gear-fields';
import styles from './diver-fields.module.css';

/** Gear, limits and gradient of a diver, each a field. */
export function DiverFields({ diver }: { readonly diver: Diver }): ReactNode {
  const { id, cylinder, po2, gradient } = diver;
  return (
    <div className={styles.fields}>
      <div className={styles.name}>
        <TextField label="Name" value={diver.name} required wide commit={(name) => setDiverName(id, name)} />
      </div>
      <GasRateField value={diver.surfaceRateLpm} commit={(rate) => setSurfaceRate(id, rate)} />
      <LaterRates diver={diver} />
      <CylinderField cylinder={cylinder} commit={(patch) => setCylinder(id, patch)} />
      <FillField value={cylinder.fillBar} commit={(fillBar) => setCylinder(id, { fillBar })} />
      <UnitField
        label="Reserve"
        kind="pressure"
        value={cylinder.reserveBar}
        decimals={0}
        commit={(reserveBar) => setCylinder(id, { reserveBar })}
      />
      <DepthLimitField
        label="Depth limit"
        value={diver.maxDepthM}
        commit={(depthM) => setDepthLimit(id, depthM)}
      />
      <ShareField
        label="Oxygen ceiling"
        value={diver.maxO2}
        commit={(maxO2) => setOxygenCeiling(id, maxO2)}
      />
      <PlainNumberField
        label="PO2 working, bar"
        value={po2.working}
        step={0.1}
        sign="bar"
        commit={(working) => setPo2Limits(id, { working })}
      />
      <PlainNumberField
        label="PO2 contingency, bar"
        value={po2.contingency}
        step={0.1}
        sign="bar"
        commit={(contingency) => setPo2Limits(id, { contingency })}
      />
      <ShareField
        label="Gradient factor low"
        value={gradient.low}
        commit={(low) => setGradient(id, { low })}
      />
      <ShareField
        label="Gradient factor high"
        value={gradient.high}
        commit={(high) => setGradient(id, { high })}
      />
      <Arrival diver={diver} />
    </div>
  );
}

/** The climb is first put in the evening before the first dive, to be set right. */
function firstArrival(trip: Trip): string {
  const date = (trip.dives[0]?.startsAt ?? `${todayText()}T00:00`).slice(0, 10);
  return wallText(wallMin(`${date}T18:00`) - 1440);
}

/** When the diver came up to a mountain lake: asked only where there is one, or where it is said already. */
function Arrival({ diver }: { readonly diver: Diver }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const { id, arrivedAt } = diver;
  if (arrivedAt === undefined) {
    if (trip.water.altitudeM === 0) return null;
    return (
      <button type="button" className="linked" onClick={() => void tell(setArrival(id, firstArrival(trip)))}>
        Came up from sea level recently
      </button>
    );
  }
  return (
    <>
      <MomentFields
        dayLabel="Came up from sea level"
        timeLabel="Arrived at"
        value={arrivedAt}
        commit={(at) => setArrival(id, at)}
      />
      <button type="button" className="linked" onClick={() => void tell(setArrival(id, null))}>
        At this height long enough
      </button>
    </>
  );
}

/** A rate has the day from which it holds: those that the evenings brought, each with a way back. */
function LaterRates({ diver: { id, name, rates = [] } }: { readonly diver: Diver }): ReactNode {
  const words = useWords();
  if (rates.length === 0) return null;
  return (
    <p className={`soft ${styles.rates}`}>
      {rates.map(({ from, surfaceRateLpm }) => (
        <span key={from}>
          {words(said`${figure('rateTyped', surfaceRateLpm)} from ${dayOf(from, 'weekday')}`)}{' '}
          <button
            type="button"
            className="linked"
            aria-label={words(said`Take back the rate of ${name} from ${dayOf(from, 'weekday')}`)}
            onClick={() => void tell(planWithRate(id, from, null))}
          >
            Take back
          </button>{' '}
        </span>
      ))}
    </p>
  );
}
