import { readFile } from 'node:fs/promises';
import { expect } from '@playwright/test';
import type { Trip } from '../../../core/document/types';
import type { Workbench } from './workbench';

/** The text of the file that the window would save. */
export async function fileText(bench: Workbench): Promise<string> {
  const download = bench.page.waitForEvent('download');
  await bench.page.keyboard.press('Control+Shift+s');
  return readFile(await (await download).path(), 'utf8');
}

/** The demo trip with Wednesday's third dive 15 minutes longer and an hour earlier. */
export async function openWorse(bench: Workbench): Promise<void> {
  const trip = JSON.parse(await fileText(bench)) as Trip;
  const dives = trip.dives.map((dive) =>
    dive.id === 'd13' ? { ...dive, bottomMin: dive.bottomMin + 15, startsAt: '2027-03-17T10:35' } : dive,
  );
  await bench.openFile('worse.json', JSON.stringify({ ...trip, dives }));
  await expect(bench.dive(13)).toHaveAccessibleName(/10:35/);
}
