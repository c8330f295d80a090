/** The module that `import ... from 'electron'` finds when main runs under the double. */
import { app } from './app';
import { ipcMain } from './ipc';
import { session } from './session';
import { dialog, Menu, nativeTheme, protocol, screen, shell } from './system';
import { BrowserWindow } from './windows';

export { app, BrowserWindow, dialog, ipcMain, Menu, nativeTheme, protocol, screen, session, shell };
export default { app, BrowserWindow, dialog, ipcMain, Menu, nativeTheme, protocol, screen, session, shell };
