/** What a briefing says of emergencies: the fields of its box, in the order of their lines. */
import { said, type Said } from '../words/said';
import type { Emergency } from './types';

export type EmergencyField = keyof Emergency;

/** Source: common practice of briefings: who leads, oxygen, whom to call and how, where one is, how far help is. */
export const EMERGENCY_FIELDS = {
  inCharge: said`In charge`,
  oxygen: said`Oxygen kit`,
  chamber: said`Nearest chamber`,
  telephone: said`Telephone`,
  doctor: said`Doctor, hospital`,
  radio: said`Radio`,
  position: said`Position`,
  wayOut: said`Way to the chamber`,
} as const satisfies Record<EmergencyField, Said>;

export const EMERGENCY_KEYS = Object.keys(EMERGENCY_FIELDS) as readonly EmergencyField[];
