/** As much of the electron module as electron-store asks for, so that settings can be tested in plain Node. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const userData = process.env['TEST_USER_DATA'] ?? mkdtempSync(join(tmpdir(), 'carryover-'));

export const app = { getPath: (_name: string) => userData, getVersion: () => '0.1.0' };
export const ipcMain = { on() {} };
export const shell = { openPath: async () => '' };
export default { app, ipcMain, shell };
