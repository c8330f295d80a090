/** How the window is made: a pure function, so that a test can hold the whole of it. */
import type { BrowserWindowConstructorOptions } from 'electron';
import type { WindowBounds } from './settings';
import { SMALLEST } from './window-bounds';

export interface WindowRequest {
  readonly bounds: WindowBounds;
  /** Absolute path of the bundled preload script. */
  readonly preload: string;
  /** Whether this is a developer's run: only then may the inspector open. */
  readonly isDeveloping: boolean;
  readonly isDark: boolean;
}

/** The first paint's paper, so that no white flashes before the page is there. */
const PAPER = { light: '#f6f2e7', cabin: '#0e1a29' } as const;

/** Every security setting is written out, though most are today's defaults: a default may change. */
export function windowOptions(request: WindowRequest): BrowserWindowConstructorOptions {
  const { x, y, width, height } = request.bounds;
  return {
    x,
    y,
    width,
    height,
    minWidth: SMALLEST.width,
    minHeight: SMALLEST.height,
    show: false,
    title: 'Carryover',
    backgroundColor: request.isDark ? PAPER.cabin : PAPER.light,
    webPreferences: {
      preload: request.preload,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      plugins: false,
      navigateOnDragDrop: false,
      safeDialogs: true,
      spellcheck: false,
      devTools: request.isDeveloping,
    },
  };
}
