/** What is chosen on the Slates place: kept while the window is open, never part of the trip. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { SlateUnits } from '../../../core/slate/figures';
import { readSlateOptions, usualPaper, type SlateSettings } from '../../../core/slate/options';
import type { HoleSide } from '../../../core/slate/paper';
import { USUAL_SLATE, type CardForm, type SlateKind } from '../../../core/slate/request';
import type { Settings } from '../../../core/host';
import type { Result } from '../../../core/result';
import { decimalSign } from '../../figures/decimal-sign';
import type { SinceWish } from './since';
import type { Id, Trip } from '../../../core/document/types';

export interface SlateChoices {
  readonly kind: SlateKind;
  /** null: the whole party. */
  readonly diverIds: readonly Id[] | null;
  /** null: what is usual for the kind, the next diving day or all. */
  readonly dates: readonly string[] | 'all' | 'next' | null;
  /** By kind, as each has its own; null: the usual one. */
  readonly papers: Readonly<Partial<Record<SlateKind, string>>>;
  readonly sheet: string | null;
  readonly holes: HoleSide;
  /** null: the usual one of the kind. */
  readonly marginMm: number | null;
  readonly twoSided: boolean;
  readonly card: CardForm;
  /** Each face of a card on a page of its own, instead of front and back side by side. */
  readonly singleFaces: boolean;
  /** null: the units of the window. */
  readonly units: SlateUnits | null;
  readonly label: string | null;
  /** What a briefing is compared with. */
  readonly since: SinceWish;
  /** Size of the pages on screen, as a share of the real one. */
  readonly zoom: number;
}

export const choices = createStore<SlateChoices>()(() => ({
  kind: 'card',
  diverIds: null,
  dates: null,
  papers: {},
  sheet: null,
  holes: USUAL_SLATE.holes,
  marginMm: null,
  twoSided: false,
  card: 'full',
  singleFaces: false,
  units: null,
  label: null,
  since: null,
  zoom: 1,
}));

export function useChoices(): SlateChoices {
  return useStore(choices);
}

export function choose(patch: Partial<SlateChoices>): void {
  choices.setState(patch);
}

/** The paper a kind is printed on: the one chosen for it, the paper of cards of the settings, or the usual. */
export function paperOf(chosen: SlateChoices, cardPaper: string): string {
  const { kind } = chosen;
  return chosen.papers[kind] ?? (kind === 'card' ? cardPaper : usualPaper(kind));
}

/**
 * The choices as settings of a print-out. Divers and days that an edit took out of the trip are passed
 * over; where none of the chosen are left, everybody and every day are meant again.
 */
export function slateSettings(
  chosen: SlateChoices,
  trip: Trip,
  dates: readonly string[],
  windowIs: Pick<Settings, 'units' | 'clock' | 'paper'>,
): Result<SlateSettings> {
  const divers = chosen.diverIds?.filter((id) => trip.party.some((diver) => diver.id === id)) ?? [];
  const picked = Array.isArray(chosen.dates) ? (chosen.dates as readonly string[]) : null;
  const days = picked?.filter((date) => dates.includes(date)) ?? [];
  return readSlateOptions({
    kind: chosen.kind,
    paper: paperOf(chosen, windowIs.paper),
    sheet: chosen.kind === 'tags' ? null : chosen.sheet,
    holes: chosen.holes,
    margin: chosen.marginMm === null ? null : String(chosen.marginMm),
    units: chosen.units ?? windowIs.units,
    clock: windowIs.clock,
    label: chosen.kind === 'tags' ? chosen.label : null,
    divers: divers.length === 0 ? null : divers,
    days: days.length > 0 ? days : typeof chosen.dates === 'string' ? chosen.dates : null,
    twoSided: chosen.twoSided,
    card: chosen.kind === 'card' ? chosen.card : null,
    singleFaces: chosen.kind === 'card' && chosen.singleFaces,
    decimal: decimalSign(),
  });
}
