/** The rest of the runtime: dialogs that answer as a test says, the menu, the system's programs, screens. */
import { EventEmitter } from 'node:events';
import { schemes } from './scheme-host';
import { happened, state, strict } from './state';

/** What the user does in a dialog, as the test said before; one that it did not expect throws. */
export async function ask(kind: string, args: readonly unknown[]): Promise<unknown> {
  happened(`dialog.${kind}`, args.at(-1));
  if (state.dialogAnswers.length === 0) throw new Error(`electron double: unexpected dialog.${kind}`);
  return state.dialogAnswers.shift();
}

export const dialog = strict('dialog', {
  showOpenDialog: (...args: unknown[]) => ask('showOpenDialog', args),
  showSaveDialog: (...args: unknown[]) => ask('showSaveDialog', args),
  showMessageBox: (...args: unknown[]) => ask('showMessageBox', args),
  showErrorBox: (title: string, content: string) => happened('dialog.showErrorBox', { title, content }),
});

export interface MenuItem {
  readonly id?: string;
  readonly label?: string;
  readonly role?: string;
  readonly enabled?: boolean;
  readonly accelerator?: string;
  readonly click?: () => void;
  readonly submenu?: readonly MenuItem[];
}

export const menu = { items: [] as readonly MenuItem[] };

export const Menu = strict('Menu', {
  buildFromTemplate: (template: readonly MenuItem[]) => template,
  setApplicationMenu: (items: readonly MenuItem[]) => {
    menu.items = items;
  },
});

/** The menu item of an id, however deep. */
export function menuItem(id: string, items: readonly MenuItem[] = menu.items): MenuItem | undefined {
  for (const item of items) {
    const found = item.id === id ? item : menuItem(id, item.submenu ?? []);
    if (found !== undefined) return found;
  }
  return undefined;
}

export const shell = strict('shell', {
  openExternal: async (url: string) => happened('shell.openExternal', url),
  showItemInFolder: (path: string) => happened('shell.showItemInFolder', path),
});

export const protocol = strict('protocol', {
  registerSchemesAsPrivileged: (given: readonly { scheme: string; privileges: object }[]) => {
    if (state.isReady)
      throw new Error('protocol.registerSchemesAsPrivileged should be called before app is ready');
    happened('registerSchemesAsPrivileged', given);
  },
  handle: (scheme: string, handler: (request: Request) => Promise<Response>) => {
    if (!state.isReady) throw new Error('protocol.handle can only be called after app is ready');
    happened('protocol.handle', scheme);
    schemes.register(scheme, handler);
  },
});

const workAreas = JSON.parse(
  process.env['DOUBLE_SCREENS'] ?? '[{ "x": 0, "y": 0, "width": 1280, "height": 800 }]',
) as readonly object[];
const displays = workAreas.map((workArea, id) => ({ id, workArea }));

export const screen = strict('screen', {
  getPrimaryDisplay: () => displays[0],
  getAllDisplays: () => displays,
});

export const nativeTheme = Object.assign(new EventEmitter(), { shouldUseDarkColors: false });
