// @vitest-environment jsdom
import type { PickedText } from '../../renderer/actions/read-import';
import { browserHost } from '../../renderer/host/browser-host';
import { holdsTheContract } from './host-suite';
import type { Machine } from './machine';

// Puts its IndexedDB where a browser has one, as it is loaded.
await import('fake-indexeddb/auto');

let machines = 0;

/** A browser profile of its own: a library of its own name, and a page whose user the test plays. */
async function machine(): Promise<Machine> {
  machines += 1;
  const library = `machine-${machines}`;
  let now = Date.parse('2027-03-01T08:00:00.000Z');
  const picks: (PickedText | null)[] = [];
  let downloaded: string | Uint8Array = '';
  let opensDialog = true;
  const page = {
    pickText: async () => picks.shift() ?? null,
    download: (bytes: Uint8Array | string) => {
      downloaded = bytes;
    },
    canPrint: true,
    print: async () => opensDialog,
    openPage: () => {},
    confirm: () => false,
    nowMs: () => now,
    persist: async () => true,
  };
  const host = browserHost(page, library);
  const otherWindow = browserHost(page, library);
  return {
    host,
    setNow: (iso) => {
      now = Date.parse(iso);
    },
    willOpen: (file) => void picks.push(file === null ? null : { kind: 'text', ...file }),
    // A browser does not tell whether its dialog was used or closed.
    willPrint: (outcome) => {
      opensDialog = outcome !== 'failed';
    },
    willSave: () => async () => downloaded,
    changeOutside: async (token, text) => {
      const written = await otherWindow.writeTrip(token, text, 'Theirs', null);
      if (!written.ok) throw new Error(written.trouble.what);
    },
    close: async () => {},
  };
}

holdsTheContract('browserHost', machine);
