/**
 * Every message between window and main process, by name. Calls go from the window to main and bring an
 * answer; notes go from main to the window. Both sides take their types from here.
 */
import type { Bridge, StoredTrip, TripChange, TripReport } from '../core/host';

/** The bridge's functions that are one question and one answer. */
type Asked = {
  [
    Name in Exclude<keyof Bridge, 'openDropped'> as Bridge[Name] extends (
      ...args: never[]
    ) => Promise<unknown>
      ? Name
      : never
  ]: Bridge[Name];
};

/** Calls that only the preload script makes, to keep the two sides in step. */
interface Inner {
  offerCommands(commands: Parameters<Bridge['offerCommands']>[0]): Promise<null>;
  /** The preload script alone sees where a dropped file lies. */
  openDroppedAt(path: string): ReturnType<Bridge['openDropped']>;
  reportTrip(report: TripReport): Promise<null>;
  reportWork(share: number | null): Promise<null>;
  /** The window listens for files opened from outside: those that waited are sent now. */
  awaitTrips(): Promise<null>;
  /** Whether the window wants to be asked before it closes. */
  guardClose(isGuarded: boolean): Promise<null>;
  /** The answer to the note "before-close": all is saved, or why it is not. */
  closeAnswered(failure: string | null): Promise<null>;
}

export type Calls = Asked & Inner;
export type CallName = keyof Calls;
export type CallArguments<Name extends CallName> = Parameters<Calls[Name]>;
export type CallAnswer<Name extends CallName> = Awaited<ReturnType<Calls[Name]>>;

export interface Notes {
  command: string;
  openTrip: StoredTrip;
  tripChanged: TripChange;
  beforeClose: null;
}

export type NoteName = keyof Notes;

/** The name on the wire of a call. */
export function callChannel(name: CallName): string {
  return `call/${name}`;
}

/** The name on the wire of a note. */
export function noteChannel(name: NoteName): string {
  return `note/${name}`;
}
