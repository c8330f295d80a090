/** `ipcMain`: calls by channel, each cloned on its way in and out. */
import { strict } from './state';
import { pack, unpack } from './codec';

type Handler = (event: unknown, ...args: unknown[]) => unknown;

const handlers = new Map<string, Handler>();

export const ipcMain = strict('ipcMain', {
  // electron-store registers one for windows that use it; ours do not.
  on() {},
  handle(channel: string, handler: Handler) {
    if (handlers.has(channel)) throw new Error(`Attempted to register a second handler for '${channel}'`);
    handlers.set(channel, handler);
  },
});

/** Answers a call as it came from a frame; what the handler throws comes back as text, as in the runtime. */
export async function answerInvoke(event: unknown, channel: string, payload: unknown): Promise<unknown> {
  const handler = handlers.get(channel);
  if (handler === undefined) return pack({ error: `Error: No handler registered for '${channel}'` });
  try {
    return pack({ value: await handler(event, ...(unpack(payload) as unknown[])) });
  } catch (error) {
    return pack({ error: String(error) });
  }
}
