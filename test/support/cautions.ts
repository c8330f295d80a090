import { expect } from 'vitest';
import { cautionsOf } from '../../core/cautions/all';
import type { Ledger } from '../../core/ledger/ledger-types';
import { fileWords, type Words } from '../../core/words/reader';
import type { Diver, Trip } from '../../core/document/types';
import { aDiver } from '../builders/trip';
import type { Caution } from '../../core/cautions/caution';

/** A caution and what it says to who reads a file, or somebody else. */
export type Worded = Caution & { readonly message: string };

export function wordedCautions(ledger: Ledger, words: Words = fileWords): readonly Worded[] {
  return cautionsOf(ledger).map((caution) => ({ ...caution, message: words(caution.says) }));
}

/** The cautions of one code that a ledger raises. */
export function of(code: string, ledger: Ledger): readonly Worded[] {
  return wordedCautions(ledger).filter((caution) => caution.code === code);
}

/** The one caution of a code that a ledger raises. */
export function only(code: string, ledger: Ledger): Worded {
  const found = of(code, ledger);
  expect(found.map((caution) => caution.message)).toHaveLength(1);
  return found[0]!;
}

export function codes(ledger: Ledger): readonly string[] {
  return cautionsOf(ledger).map((caution) => caution.code);
}

/** A trip of one diver. */
export function party(change: Partial<Diver>): Partial<Trip> {
  return { party: [aDiver(change)] };
}
