/**
 * The one door for calls from the window: its own page, in its top frame, with arguments that fit. What
 * is refused rejects; it never comes back as an answer that a caller might take for one.
 */
import type { HostResult } from '../core/host';
import { readArguments } from './call-schemas';
import { callChannel, type CallAnswer, type CallArguments, type CallName } from './channels';
import { DiskTrouble } from './disk/disk-trouble';
import { isOurAddress } from './scheme';

/** As much of an IPC event as the door looks at. */
export interface CallEvent {
  readonly senderFrame: { readonly url: string; readonly parent: unknown } | null;
}

/** As much of ipcMain as the door needs. */
export interface Receiver {
  handle(channel: string, listener: (event: CallEvent, ...args: unknown[]) => Promise<unknown>): void;
}

export type Handlers = {
  readonly [Name in CallName]: (...args: CallArguments<Name>) => Promise<CallAnswer<Name>>;
};

/** Answers every call through the one door. */
export function answerCalls(receiver: Receiver, handlers: Handlers): void {
  for (const name of Object.keys(handlers) as CallName[]) answer(receiver, name, handlers[name]);
}

function answer<Name extends CallName>(receiver: Receiver, name: Name, handler: Handlers[Name]): void {
  receiver.handle(callChannel(name), async (event, ...given) => {
    // A frame that is already gone has no address, and gets no answer.
    const frame = event.senderFrame;
    if (frame === null || !isOurAddress(frame.url))
      throw new Error(`${name}: refused, not a page of this app`);
    if (frame.parent !== null) throw new Error(`${name}: refused, not the window's top frame`);
    const read = readArguments(name, given);
    if (!read.ok) throw new Error(`${name}: refused, ${read.reason}`);
    return handler(...read.args);
  });
}

/** Turns what the disk threw into the trouble of an answer; a mistake of ours still throws. */
export async function attempt<T>(work: () => Promise<T> | T): Promise<HostResult<T>> {
  try {
    return { ok: true, value: await work() };
  } catch (error) {
    if (error instanceof DiskTrouble) return { ok: false, trouble: error.trouble };
    throw error;
  }
}
