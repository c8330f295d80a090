import type { MenuItemConstructorOptions } from 'electron';
import { describe, expect, it } from 'vitest';
import type { MenuCommand } from '../../../core/host';
import { accelerator, menuTemplate, type MenuRequest } from '../../../electron/menu';
import { menuCommands } from '../../../renderer/commands/offer';
import { desk } from '../../../renderer/store/store';

const COMMANDS: readonly MenuCommand[] = [
  { id: 'trip.save', label: 'Save now', group: 'Trip', keys: 'Mod+S', enabled: true },
  { id: 'edit.undo', label: 'Undo depth of dive 9', group: 'Edit', keys: 'Mod+Z', enabled: false },
];

function template(patch: Partial<MenuRequest> = {}): MenuItemConstructorOptions[] {
  return menuTemplate({
    commands: COMMANDS,
    recentFiles: [],
    platform: 'linux',
    isDeveloping: false,
    run: () => {},
    openRecent: () => {},
    showAbout: () => {},
    ...patch,
  });
}

function itemsOf(menu: MenuItemConstructorOptions | undefined): readonly MenuItemConstructorOptions[] {
  return Array.isArray(menu?.submenu) ? menu.submenu : [];
}

function everyItem(menus: readonly MenuItemConstructorOptions[]): readonly MenuItemConstructorOptions[] {
  return menus.flatMap((menu) => [menu, ...everyItem(itemsOf(menu))]);
}

describe('menuTemplate', () => {
  it('shows commands under their group, with their keys, which the window hears itself', () => {
    const save = itemsOf(template().find(({ id }) => id === 'Trip'))[0];
    expect(save).toMatchObject({
      label: 'Save now',
      accelerator: 'CommandOrControl+S',
      registerAccelerator: false,
      enabled: true,
    });
    expect(everyItem(template()).find(({ id }) => id === 'edit.undo')).toMatchObject({ enabled: false });
  });

  it('runs the command that is clicked', () => {
    const ran: string[] = [];
    const save = everyItem(template({ run: (id) => ran.push(id) })).find(({ id }) => id === 'trip.save');
    (save as { click: () => void }).click();
    expect(ran).toEqual(['trip.save']);
  });

  it('has each command of the window once', () => {
    const commands = menuCommands(desk.getState());
    const ids = everyItem(template({ commands })).map(({ id }) => id);
    for (const { id } of commands)
      expect(
        ids.filter((each) => each === id),
        id,
      ).toHaveLength(1);
  });

  it('leaves menus without an item out', () => {
    expect(template().map(({ label }) => label)).toEqual(['Trip', 'Edit', 'View', 'Help']);
  });

  it('follows the Mac’s conventions: an app menu with about and quit, a window menu', () => {
    const mac = template({ platform: 'darwin' });
    expect(mac[0]?.label).toBe('Carryover');
    expect(itemsOf(mac[0]).map(({ id, role }) => id ?? role)).toContain('about');
    expect(itemsOf(mac[0]).at(-1)).toEqual({ role: 'quit' });
    expect(mac.map(({ role }) => role)).toContain('windowMenu');
    expect(itemsOf(mac.find(({ id }) => id === 'Trip')).map(({ role }) => role)).toContain('close');
    expect(itemsOf(template().find(({ id }) => id === 'Trip')).map(({ role }) => role)).toContain('quit');
  });

  it('lists recent files by name, and opens the one that is clicked', () => {
    const opened: string[] = [];
    const menus = template({
      recentFiles: ['/home/a/Week.carryover'],
      openRecent: (path) => opened.push(path),
    });
    const recent = everyItem(menus).find(({ id }) => id === 'recent-0');
    expect(recent).toMatchObject({ label: 'Week.carryover', toolTip: '/home/a/Week.carryover' });
    (recent as { click: () => void }).click();
    expect(opened).toEqual(['/home/a/Week.carryover']);
    expect(everyItem(template()).find(({ id }) => id === 'recent')).toMatchObject({ enabled: false });
  });

  it('shows the inspector to developers alone', () => {
    const roles = (isDeveloping: boolean) => everyItem(template({ isDeveloping })).map(({ role }) => role);
    expect(roles(true)).toContain('toggleDevTools');
    expect(roles(false)).not.toContain('toggleDevTools');
    expect(roles(false)).not.toContain('reload');
  });
});

describe('accelerator', () => {
  it.each([
    ['Mod+Shift+Z', 'CommandOrControl+Shift+Z'],
    ['Mod++', 'CommandOrControl+Plus'],
    ['Alt+ArrowLeft', 'Alt+Left'],
    ['Insert', 'Insert'],
    ['?', '?'],
  ])('writes %s as %s', (keys, expected) => {
    expect(accelerator(keys)).toBe(expected);
  });
});
