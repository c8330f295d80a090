/** The application menu, made of the window's own commands and of what each system expects besides. */
import { basename } from 'node:path';
import type { MenuItemConstructorOptions } from 'electron';
import type { MenuCommand } from '../core/host';

export interface MenuRequest {
  readonly commands: readonly MenuCommand[];
  readonly recentFiles: readonly string[];
  readonly platform: NodeJS.Platform;
  readonly isDeveloping: boolean;
  readonly run: (commandId: string) => void;
  readonly openRecent: (path: string) => void;
  readonly showAbout: () => void;
}

/** What the system's own menu items do better than a command could: the text being typed, the window. */
const EDIT_ROLES: readonly MenuItemConstructorOptions[] = [
  { role: 'cut' },
  { role: 'copy' },
  { role: 'paste' },
  { role: 'selectAll' },
];

/** Keys as the registry writes them, in the words of the runtime. */
const KEY_NAMES: Readonly<Record<string, string>> = {
  Mod: 'CommandOrControl',
  ArrowLeft: 'Left',
  ArrowRight: 'Right',
  ArrowUp: 'Up',
  ArrowDown: 'Down',
  ' ': 'Space',
  '+': 'Plus',
};

/** The template of the whole menu; pure, so that a test can read it. */
export function menuTemplate(request: MenuRequest): MenuItemConstructorOptions[] {
  const isMac = request.platform === 'darwin';
  const about: MenuItemConstructorOptions = {
    id: 'about',
    label: 'About Carryover',
    click: request.showAbout,
  };
  const tripMenu = menu(request, 'Trip', [
    recentMenu(request),
    { type: 'separator' },
    isMac ? { role: 'close' } : { role: 'quit' },
  ]);
  const viewMenu = menu(request, 'View', [
    { role: 'togglefullscreen' },
    ...(request.isDeveloping ? [{ role: 'reload' } as const, { role: 'toggleDevTools' } as const] : []),
  ]);
  const windowMenu: MenuItemConstructorOptions = { role: 'windowMenu' };
  const menus = [
    ...(isMac ? [macAppMenu(about)] : []),
    tripMenu,
    menu(request, 'Edit', EDIT_ROLES),
    menu(request, 'Dive', []),
    menu(request, 'Places', []),
    viewMenu,
    ...(isMac ? [windowMenu] : []),
    menu(request, 'Help', isMac ? [] : [about]),
  ];
  return menus.filter(({ submenu }) => !Array.isArray(submenu) || submenu.length > 0);
}

function macAppMenu(about: MenuItemConstructorOptions): MenuItemConstructorOptions {
  const separator = { type: 'separator' } as const;
  return {
    label: 'Carryover',
    submenu: [
      about,
      separator,
      { role: 'services' },
      separator,
      { role: 'hide' },
      { role: 'hideOthers' },
      { role: 'unhide' },
      separator,
      { role: 'quit' },
    ],
  };
}

function menu(
  request: MenuRequest,
  group: MenuCommand['group'],
  after: readonly MenuItemConstructorOptions[],
): MenuItemConstructorOptions {
  const items = request.commands
    .filter((command) => command.group === group)
    .map((command) => item(request, command));
  const between: MenuItemConstructorOptions[] =
    items.length > 0 && after.length > 0 ? [{ type: 'separator' }] : [];
  return { id: group, label: group, submenu: [...items, ...between, ...after] };
}

function item(request: MenuRequest, command: MenuCommand): MenuItemConstructorOptions {
  return {
    id: command.id,
    label: command.label,
    enabled: command.enabled,
    click: () => request.run(command.id),
    // The keys are shown here and heard by the window, which knows whether a field is being typed in.
    ...(command.keys === undefined
      ? {}
      : { accelerator: accelerator(command.keys), registerAccelerator: false }),
  };
}

/** "Mod+Shift+Z" as the runtime writes it. */
export function accelerator(keys: string): string {
  const key = keys.endsWith('+') ? '+' : keys.slice(keys.lastIndexOf('+') + 1);
  const modifiers = keys
    .slice(0, keys.length - key.length)
    .split('+')
    .filter((part) => part !== '');
  return [...modifiers, key].map((part) => KEY_NAMES[part] ?? part).join('+');
}

function recentMenu({ recentFiles, openRecent }: MenuRequest): MenuItemConstructorOptions {
  return {
    id: 'recent',
    label: 'Open recent file',
    enabled: recentFiles.length > 0,
    submenu: recentFiles.map((path, index) => ({
      id: `recent-${index}`,
      label: basename(path),
      toolTip: path,
      click: () => openRecent(path),
    })),
  };
}
