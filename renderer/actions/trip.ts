/** Edits of what belongs to the whole trip. */
import { EMERGENCY_FIELDS, type EmergencyField } from '../../core/document/emergency';
import type { Trip, TripSettings } from '../../core/document/types';
import { fileWords } from '../../core/words/reader';
import { edit, type EditResult } from './edit';
import type { Water } from '../../core/water';
import type { WallTime } from '../../core/words/calendar';

export function setTitle(title: string): EditResult {
  return edit({ label: 'Title', code: 'trip.title' }, (trip) => ({ ...trip, title }));
}

export function setTripPlace(place: string): EditResult {
  return edit({ label: 'Place of the trip', code: 'trip.place' }, (trip) => ({ ...trip, place }));
}

export function setNotes(notes: string): EditResult {
  return edit({ label: 'Notes', code: 'trip.notes' }, (trip) => ({ ...trip, notes }));
}

export function setWater(patch: Partial<Water>): EditResult {
  return edit({ label: 'Water', code: 'trip.water' }, (trip) => ({
    ...trip,
    water: { ...trip.water, ...patch },
  }));
}

export function setRates(patch: Partial<TripSettings>): EditResult {
  return edit({ label: 'Rates and gas', code: 'trip.settings' }, (trip) => ({
    ...trip,
    settings: { ...trip.settings, ...patch },
  }));
}

/** null: no flight. */
export function setFlight(at: WallTime | null): EditResult {
  return edit({ label: 'Flight home', code: 'trip.flight' }, (trip): Trip => ({
    ...trip,
    flight: at === null ? null : { ...trip.flight, at },
  }));
}

/** An empty text takes the line out of the trip: the briefing leaves it to be written on. */
export function setEmergency(field: EmergencyField, text: string): EditResult {
  const label = fileWords(EMERGENCY_FIELDS[field]);
  return edit({ label, code: `trip.emergency.${field}` }, (trip): Trip => {
    const { emergency, ...rest } = trip;
    const { [field]: _, ...others } = emergency ?? {};
    const after = text === '' ? others : { ...others, [field]: text };
    return Object.keys(after).length === 0 ? rest : { ...rest, emergency: after };
  });
}
