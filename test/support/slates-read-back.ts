/** Print-outs read back by an engine that knows nothing of this project, and the careful rounding told once more. */
import { expect } from 'vitest';
import { assert } from '../../core/result';
import type { Trip } from '../../core/document/types';
import type { Entry, RoomLimit } from '../../core/ledger/ledger-types';
import { slatePdf } from '../../core/slate/pdf';
import type { SlateRequest } from '../../core/slate/request';
import { pdfTroubles } from './pdf/qpdf';
import { readPdf } from './pdf/read-pdf';
import { aPaper, aRequest } from './slates';

/** The text of each page, in the order it was written. */
export async function readBack(
  trip: Trip,
  paper: string,
  change: Partial<SlateRequest>,
): Promise<readonly string[]> {
  const made = await slatePdf(aRequest(trip, { paper: aPaper(paper), isFolded: false, ...change }));
  assert(made.ok && made.value !== null, 'no slates');
  expect(await pdfTroubles(made.value.bytes)).toBe('');
  const pages = await readPdf(made.value.bytes);
  expect(pages).toHaveLength(made.value.pageCount);
  return pages.map(({ text }) => text.replaceAll(/[\s\u00a0]+/g, ' '));
}

/** Binary dust: 33 m that comes out as 32.9999999 is 33 m. Far below what any figure is printed to. */
export const DUST = 1e-6;

export function floor(value: number): string {
  return minus(Math.floor(value + DUST));
}

export function ceil(value: number): string {
  return minus(Math.ceil(value - DUST));
}

export function minus(value: number): string {
  return value < 0 ? `\u2212${-value}` : `${value + 0}`;
}

export function tenthsUp(value: number): string {
  return `${Math.ceil(value * 10 - DUST) / 10}`;
}

/** What is planned is rounded down with the limits it keeps; what was dived, up: to the tenth. */
export function careful(value: number, { isAsDived }: Pick<Entry, 'isAsDived'>): string {
  return isAsDived ? tenthsUp(value) : `${Math.floor(value * 10 + DUST) / 10}`;
}

export function literal(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
}

export const ROOM_TO: Record<RoomLimit, string> = {
  'no-stop': 'no-stop',
  mod: 'MOD',
  po2: 'PO2',
  cns: 'CNS',
  'cns-day': 'CNS 24 h',
  oxygen: 'oxygen',
  scrubber: 'scrubber',
  'bail-out': 'bail-out',
  gas: 'gas',
  'diver-depth': 'own depth',
  interval: 'dive before',
};

export function mixName(o2: number): string {
  return Math.abs(o2 - 0.21) < DUST ? 'Air' : `EAN${Number((100 * o2).toFixed(2))}`;
}
