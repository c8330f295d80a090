import type { ReactNode } from 'react';
import { EMERGENCY_FIELDS, EMERGENCY_KEYS } from '../../core/document/emergency';
import { wallMin, wallText } from '../../core/words/calendar';
import { fileWords } from '../../core/words/reader';
import { said } from '../../core/words/said';
import { ROOM_TEMPERATURE } from '../../core/words/terms';
import { loopSettingsOf } from '../../core/document/loops';
import type { LoopSettings, Trip } from '../../core/document/types';
import type { EditResult } from '../actions/edit';
import {
  setEmergency,
  setFlight,
  setNotes,
  setRates,
  setTitle,
  setTripPlace,
  setWater,
} from '../actions/trip';
import { closeOverlay } from '../actions/view';
import { todayText } from '../figures/local-time';
import { waterChoices } from '../figures/waters';
import { Choice } from '../parts/choice';
import { CABIN_ALTITUDE_M } from '../../core/ledger/flight-views';
import { Dialog } from '../parts/dialog';
import { TextField } from '../parts/field';
import { MomentFields } from '../parts/moment-fields';
import { NotesField } from '../parts/notes-field';
import { PlainNumberField, ShareField, UnitField } from '../parts/number-field';
import { useWords } from '../parts/use-words';
import { useDesk } from '../store/store';
import styles from './details.module.css';
import { Heights } from './heights';

/** A flight is first put a day after the last dive's day, in the afternoon. */
function firstFlight(trip: Trip): string {
  const last = trip.dives.at(-1);
  const from = last ? wallMin(`${last.startsAt.slice(0, 10)}T15:00`) : wallMin(`${todayText()}T15:00`);
  return wallText(from + 2 * 1440);
}

/** What holds for the whole trip: its name, the water, the rates, the flight home. */
export function TripDetails(): ReactNode {
  const trip = useDesk((state) => state.trip);
  const units = useDesk((state) => state.settings.units);
  const words = useWords();
  const { water, settings, flight } = trip;
  const density = typeof water.density === 'number' ? 'other' : water.density;
  return (
    <Dialog title="The trip" onClose={closeOverlay}>
      <div className={styles.details}>
        <TextField label="Title" value={trip.title} commit={setTitle} required wide />
        <TextField label="Place" value={trip.place} commit={setTripPlace} wide />
        <div className={styles.wide}>
          <NotesField label="Notes" value={trip.notes} commit={setNotes} />
        </div>
        <h3>Flight home</h3>
        {flight ? (
          <>
            <MomentFields dayLabel="Day" timeLabel="Take-off" value={flight.at} commit={setFlight} />
            <button type="button" className="linked" onClick={() => void setFlight(null)}>
              There is no flight
            </button>
          </>
        ) : (
          <button type="button" className="linked" onClick={() => void setFlight(firstFlight(trip))}>
            Add the flight home
          </button>
        )}
        <UnitField
          label="Cabin stands for"
          kind="depth"
          value={settings.cabinAltitudeM ?? CABIN_ALTITUDE_M}
          decimals={0}
          step={100}
          commit={(cabinAltitudeM) => setRates({ cabinAltitudeM })}
        />
        <h3>In an emergency, for the briefing</h3>
        {EMERGENCY_KEYS.map((field) => (
          <TextField
            key={field}
            label={fileWords(EMERGENCY_FIELDS[field])}
            value={trip.emergency?.[field] ?? ''}
            commit={(text) => setEmergency(field, text)}
          />
        ))}
        <h3>Water</h3>
        <Choice
          label="Density"
          value={density}
          options={[...waterChoices(units), { value: 'other', label: 'Another density' }]}
          commit={(value) => void setWater({ density: value === 'other' ? 1019.7 : value })}
        />
        {density === 'other' && typeof water.density === 'number' ? (
          <PlainNumberField
            label="kg in a cubic metre"
            value={water.density}
            decimals={1}
            commit={(value) => setWater({ density: value })}
          />
        ) : null}
        <UnitField
          label="Altitude of the water"
          kind="depth"
          value={water.altitudeM}
          decimals={0}
          step={50}
          commit={(altitudeM) => setWater({ altitudeM })}
        />
        <h3>Stays at other heights</h3>
        <Heights />
        <h3>Rates and gas</h3>
        <UnitField
          label="Descent rate"
          kind="speed"
          value={settings.descentMPerMin}
          commit={(descentMPerMin) => setRates({ descentMPerMin })}
        />
        <UnitField
          label="Ascent rate"
          kind="speed"
          value={settings.ascentMPerMin}
          commit={(ascentMPerMin) => setRates({ ascentMPerMin })}
        />
        <Choice
          label="Gas in a cylinder"
          value={settings.gasLaw}
          options={[
            { value: 'ideal', label: 'Pressure times volume' },
            { value: 'real', label: words(said`With compressibility at ${ROOM_TEMPERATURE}`) },
          ]}
          commit={(gasLaw) => void setRates({ gasLaw })}
        />
        <ShareField
          label="Mixes may be off their label by"
          value={settings.analysisTolerance}
          commit={(analysisTolerance) => setRates({ analysisTolerance })}
        />
        {trip.party.some(({ loop }) => loop !== undefined) ? <Loops /> : null}
      </div>
    </Dialog>
  );
}

/** What holds for every breathing loop of the trip. */
function Loops(): ReactNode {
  const settings = useDesk(({ trip }) => trip.settings);
  const { toleranceBar, oxygenLpm, volumeL } = loopSettingsOf(settings);
  const put = (patch: Partial<LoopSettings>): EditResult =>
    setRates({ loops: { ...settings.loops, ...patch } });
  return (
    <>
      <h3>Breathing loops</h3>
      <UnitField
        label="Setpoints may be off by"
        kind="po2"
        decimals={2}
        step={0.01}
        value={toleranceBar}
        hint="as much less oxygen for nitrogen, as much more for the clocks"
        commit={(bar) => put({ toleranceBar: bar })}
      />
      <UnitField
        label="Oxygen used by a diver"
        kind="oxygen-rate"
        step={0.1}
        value={oxygenLpm}
        hint="at any depth"
        commit={(lpm) => put({ oxygenLpm: lpm })}
      />
      <UnitField
        label="Gas in loop and lungs"
        kind="loop-volume"
        value={volumeL}
        hint="which a descent fills up with diluent"
        commit={(litres) => put({ volumeL: litres })}
      />
    </>
  );
}
