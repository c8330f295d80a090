/** What a key costs in class and in the log of a day, on a trip of 56 dives and 12 divers. */
import { chromium, type Page } from '@playwright/test';
import { bundle } from '../../build/bundle';
import { findBrowser } from '../../build/find-browser';
import { at } from '../../build/paths';
import { serve } from '../../build/serve';
import { QUIET_FLAGS } from '../../build/test-browser';
import type { BenchLine } from './report';
import { BARE, chosenMark, editLines, pressesOfEmptyPage, pressesOfWay, workLine, type Way } from './window';

/** A figure of the first diver in the log of the day of dive 30. */
async function chooseCell(page: Page): Promise<void> {
  await chosenMark(page).focus();
  await page.keyboard.press('l');
  const grid = page.getByRole('grid', { name: 'Log of the day' });
  await grid.getByRole('row').filter({ hasText: 'Guest' }).first().getByRole('gridcell').nth(1).click();
}

/** The depth of the class, on mixes alone or with a loop in the place of one. */
async function chooseDepthOfClass(page: Page, hasLoop: boolean): Promise<void> {
  await page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: 'Mixes' }).click();
  await page.getByRole('tab', { name: 'In class' }).click();
  if (hasLoop) await page.getByRole('button', { name: /^a loop in the place of/ }).click();
  await page.getByRole('slider', { name: 'Depth' }).focus();
}

const WAYS: readonly Way[] = [
  {
    what: 'the depth of the class by arrow key',
    keys: ['ArrowDown', 'ArrowUp'],
    focus: (page) => chooseDepthOfClass(page, false),
  },
  {
    what: 'the same with a loop beside the mixes',
    keys: ['ArrowDown', 'ArrowUp'],
    focus: (page) => chooseDepthOfClass(page, true),
  },
  {
    what: 'a key typed into a cell of the log',
    keys: ['3', '4'],
    focus: chooseCell,
    prepare: (page) => async (turn) => {
      // A cell that is being typed into is taken back, so that each key begins one.
      if (turn > 0) await page.keyboard.press('Escape');
    },
  },
  {
    what: 'a depth typed into the log, from Enter',
    keys: ['Enter'],
    focus: chooseCell,
    prepare: (page) => async (turn) => {
      // Enter goes down a row.
      if (turn > 0) await page.keyboard.press('ArrowUp');
      await page.keyboard.type(turn % 2 === 0 ? '14.5' : '15.5');
    },
  },
];

export async function benchClassAndLog(): Promise<readonly BenchLine[]> {
  const executablePath = findBrowser();
  if (executablePath === null) throw new Error('the window cannot be measured: no Chromium was found');
  await bundle(['window']);
  const served = await serve(at('out/renderer'), 0);
  const browser = await chromium.launch({ executablePath, args: [...QUIET_FLAGS] });
  try {
    const empty = await pressesOfEmptyPage(browser);
    const bare = await pressesOfWay(browser, served.address, BARE);
    const lines: BenchLine[] = [workLine(BARE.what, bare, empty)];
    for (const way of WAYS) {
      const presses = await pressesOfWay(browser, served.address, way);
      lines.push(workLine(way.what, presses, empty), ...editLines(way.what, presses, bare));
    }
    return lines;
  } finally {
    await browser.close();
    await served.close();
  }
}
