import { PLACES } from '../../renderer/commands/place-names';
import { expect, test } from './fixtures';
import { wcagBreaches } from './wcag';

for (const look of ['light', 'cabin'] as const) {
  test.describe(`in the ${look} look`, () => {
    test.use({
      colorScheme: look === 'cabin' ? 'dark' : 'light',
      contextOptions: { reducedMotion: 'reduce' },
    });

    test('the cautions of the first start hold WCAG 2.2 AA', async ({ page, firstStart }) => {
      await page.goto('/');
      await expect(firstStart.dialog).toBeVisible();
      expect(await wcagBreaches(page)).toEqual([]);
    });

    // In one window: each look costs as much as the window does to open.
    test('every place holds WCAG 2.2 AA', async ({ page, bench }) => {
      for (const { id, label } of PLACES) {
        await page.getByRole('navigation').getByRole('button', { name: label }).click();
        await expect(page.getByRole('navigation').locator('[aria-current=page]')).toHaveText(label);
        if (id === 'days') await bench.chooseTightest();
        await expect(page.getByRole('main')).not.toContainText('One moment…');
        expect(await wcagBreaches(page), label).toEqual([]);
      }
    });

    test('every sheet holds WCAG 2.2 AA', async ({ page, bench }) => {
      for (const [words, title] of [
        ['keys', 'Keys'],
        ['settings', 'Settings'],
        ['title water', 'The trip'],
        ['my trips', 'My trips'],
        ['all cautions', 'Cautions'],
        ['about', 'About Carryover'],
      ] as const) {
        await bench.command(words);
        await expect(bench.dialog.getByRole('heading', { name: title }).first()).toBeVisible();
        expect(await wcagBreaches(page), words).toEqual([]);
        await page.keyboard.press('Escape');
      }
    });
  });
}

test('text at 200 percent loses nothing to the side', async ({ page, bench }) => {
  await bench.enlarge();
  await bench.chooseTightest();
  await bench.expectNothingBeside('with the card of a dive');
  await bench.field('Depth').scrollIntoViewIfNeeded();
  await expect(bench.field('Depth')).toBeInViewport({ ratio: 1 });
  for (const width of [1280, 840]) {
    await page.setViewportSize({ width, height: 800 });
    for (const { id, label } of PLACES) {
      await page.getByRole('navigation').getByRole('button', { name: label }).click();
      await expect(page.locator('main > *').first()).toBeVisible();
      await expect(page.getByRole('main')).not.toContainText('One moment…');
      await bench.expectNothingBeside(`${id} at ${width} px`);
    }
  }
  // Drawn anew, the strip takes no more than before: it would grow with each dive that is chosen.
  await page.getByRole('navigation').getByRole('button', { name: 'Days' }).click();
  const highPx = () =>
    page.getByRole('region', { name: 'The trip, day by day' }).evaluate((strip) => strip.clientHeight);
  await expect(page.locator('.recharts-wrapper')).toHaveCount(2);
  await bench.settled();
  const before = await highPx();
  for (const number of [1, 2, 3]) {
    await bench.command(`dive ${number},`);
    await expect(bench.card.getByRole('region', { name: `Dive ${number}`, exact: true })).toBeVisible();
    await bench.settled();
    await expect.poll(highPx).toBe(before);
  }
});
