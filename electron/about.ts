/** The about box: which program this is, on what it runs, and what nobody may take it for. */
import { app, dialog, type BrowserWindow } from 'electron';
import type { AboutHost } from '../core/host';
import { fileWords } from '../core/words/reader';
import { SAFETY_LINE } from '../core/words/safety-line';

/** The app and the versions it runs on. */
export function aboutDesktop(): AboutHost {
  const { electron, chrome, node } = process.versions;
  return {
    app: app.getName(),
    versions: [
      { name: app.getName(), version: app.getVersion() },
      { name: 'Electron', version: electron ?? '' },
      { name: 'Chromium', version: chrome ?? '' },
      { name: 'Node', version: node },
      { name: 'System', version: `${process.platform} ${process.arch}` },
    ].filter(({ version }) => version !== ''),
  };
}

/** Shows the box over a window. */
export async function showAbout(window: BrowserWindow): Promise<void> {
  const { app: name, versions } = aboutDesktop();
  await dialog.showMessageBox(window, {
    type: 'info',
    title: `About ${name}`,
    message: name,
    detail: [...versions.map((each) => `${each.name} ${each.version}`), '', fileWords(SAFETY_LINE)].join(
      '\n',
    ),
    buttons: ['Close'],
  });
}
