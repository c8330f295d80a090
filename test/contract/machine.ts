/** The machine that a host is tried on, and how its answers are read. */
import { expect } from 'vitest';
import type { Host, HostResult, StoredTrip } from '../../core/host';

/** A host on a machine of its own, with its user in the test's hand. */
export interface Machine {
  readonly host: Host;
  /** The clock of the machine; every save reads it. */
  setNow(iso: string): void;
  /** What the user chooses in the next dialog that opens a file; null: thinks better of it. */
  willOpen(file: { readonly name: string; readonly text: string } | null): void;
  /** What the user does in the next dialog that saves; false: thinks better of it. Returns how to read it. */
  willSave(name: string): () => Promise<string | Uint8Array>;
  /** What the next print dialog comes to. */
  willPrint(outcome: 'printed' | 'closed' | 'failed'): void;
  /** Somebody else saves another text over a stored trip. */
  changeOutside(token: string, text: string): Promise<void>;
  close(): Promise<void>;
}

export function tripText(title: string, extra: object = {}): string {
  return JSON.stringify({ format: 'carryover/trip', version: 1, title, ...extra });
}

/** What a host answered; throws where it told a trouble. */
export function value<T>(result: HostResult<T>): T {
  if (!result.ok) throw new Error(`${result.trouble.kind}: ${result.trouble.what} (${result.trouble.where})`);
  return result.value;
}

/** The kind of trouble that was told; 'ok' for none. */
export function kind(result: HostResult<unknown>): string {
  return result.ok ? 'ok' : result.trouble.kind;
}

/** Every trouble has words for all three parts, whichever host tells it. */
export function expectTrouble(result: HostResult<unknown>, expected: string): void {
  expect(kind(result)).toBe(expected);
  if (result.ok) return;
  expect(result.trouble.what).toMatch(/^[A-Z].*\.$/);
  expect(result.trouble.mend).toMatch(/^[A-Z].*\.$/);
  expect(result.trouble.where).not.toBe('');
}

/** A trip saved into the library for the first time. */
export async function saved(host: Host, title: string): Promise<StoredTrip> {
  return value(await host.writeTrip(null, tripText(title), title, null));
}
