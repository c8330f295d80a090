import { said, type Said } from '../words/said';
import type { SlateKind } from './request';

/** What the kinds are called within a sentence. */
export const KIND_NAMES: Readonly<Record<SlateKind, Said>> = {
  card: said`day card`,
  briefing: said`briefing sheet`,
  guest: said`guest sheet`,
  trip: said`trip sheet`,
  tags: said`cylinder tags`,
  depth: said`depth card`,
};
