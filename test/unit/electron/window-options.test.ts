import { expect, it } from 'vitest';
import { windowOptions } from '../../../electron/window-options';

const REQUEST = {
  bounds: { x: 10, y: 20, width: 1280, height: 800, isMaximized: false },
  preload: '/app/out/preload/preload.cjs',
  isDeveloping: false,
  isDark: false,
};

// The whole object: a setting that is added, lost or weakened must be looked at by somebody.
it('windowOptions holds every security setting', () => {
  expect(windowOptions(REQUEST)).toEqual({
    x: 10,
    y: 20,
    width: 1280,
    height: 800,
    minWidth: 800,
    minHeight: 560,
    show: false,
    title: 'Carryover',
    backgroundColor: '#f6f2e7',
    webPreferences: {
      preload: '/app/out/preload/preload.cjs',
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
      devTools: false,
    },
  });
});

it('windowOptions opens the inspector to developers alone, and dark paper in a cabin', () => {
  expect(windowOptions({ ...REQUEST, isDeveloping: true }).webPreferences?.devTools).toBe(true);
  expect(windowOptions({ ...REQUEST, isDark: true }).backgroundColor).toBe('#0e1a29');
});
