/**
 * As much of the electron module as the desktop needs without a window, in one process: folders for
 * electron-store, calls and notes that are cloned on their way as IPC does, and dialogs that answer as a
 * test says. A dialog that no test expects throws.
 */
import { EventEmitter } from 'node:events';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const userData = process.env['TEST_USER_DATA'] ?? mkdtempSync(join(tmpdir(), 'carryover-'));

type Listener = (event: unknown, ...args: unknown[]) => unknown;

/** What the user does in the dialogs to come, in order; a function is run when its dialog opens. */
export const dialogAnswers: (() => unknown)[] = [];
/** What the preload script laid open, by name. */
export const exposed = new Map<string, unknown>();

const handlers = new Map<string, Listener>();
const notes = new EventEmitter();

async function nextAnswer(): Promise<unknown> {
  const answer = dialogAnswers.shift();
  if (answer === undefined) throw new Error('a dialog that no test expects');
  return answer();
}

/** Sends a note from main to the window. */
export function sendNote(channel: string, note: unknown): void {
  notes.emit(channel, {}, structuredClone(note));
}

/** Calls main as a page at an address would. */
export async function callFrom(url: string, channel: string, ...args: unknown[]): Promise<unknown> {
  const handler = handlers.get(channel);
  if (handler === undefined) throw new Error(`No handler registered for '${channel}'`);
  const event = { senderFrame: { url, parent: null } };
  return structuredClone(await handler(event, ...structuredClone<unknown[]>(args)));
}

export const app = {
  getPath: (_name: string) => userData,
  getVersion: () => '0.2.0',
  getName: () => 'Carryover',
};
export const ipcMain = {
  on() {},
  handle: (channel: string, listener: Listener) => void handlers.set(channel, listener),
};
export const ipcRenderer = {
  invoke: (channel: string, ...args: unknown[]) => callFrom('carryover://app/index.html', channel, ...args),
  on: (channel: string, listener: (...args: unknown[]) => void) => notes.on(channel, listener),
  off: (channel: string, listener: (...args: unknown[]) => void) => notes.off(channel, listener),
};
export const contextBridge = {
  exposeInMainWorld: (name: string, api: unknown) => void exposed.set(name, api),
};
export const dialog = { showOpenDialog: nextAnswer, showSaveDialog: nextAnswer, showMessageBox: nextAnswer };
/** What the file manager was asked to show. */
export const shownItems: string[] = [];
export const shell = {
  openExternal: async () => {
    throw new Error('a page that no test expects was opened outside the app');
  },
  showItemInFolder: (path: string) => void shownItems.push(path),
};
/** Named by files under test whose use of it needs a window; see `electron.ts` beside this for that. */
export const protocol = {};
export const session = {};
export default { app, ipcMain, shell };
