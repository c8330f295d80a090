import { AxeBuilder } from '@axe-core/playwright';
import { PLACES } from '../../renderer/commands/place-names';
import { expect, test } from './fixtures';
import type { Workbench } from './pages/workbench';

const WCAG_22_AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

async function expectNoViolations(bench: Workbench): Promise<void> {
  const { violations } = await new AxeBuilder({ page: bench.page }).withTags(WCAG_22_AA).analyze();
  const told = violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html}\n${failureSummary}`),
  );
  expect(told).toEqual([]);
}

for (const look of ['light', 'cabin'] as const) {
  test.describe(`in the ${look} look`, () => {
    test.use({
      colorScheme: look === 'cabin' ? 'dark' : 'light',
      contextOptions: { reducedMotion: 'reduce' },
    });

    test('the cautions of the first start hold WCAG 2.2 AA', async ({ page, firstStart }) => {
      await page.goto('/');
      await expect(firstStart.dialog).toBeVisible();
      await expectNoViolations(firstStart);
    });

    for (const { id, label } of PLACES) {
      test(`${label} holds WCAG 2.2 AA`, async ({ page, bench }) => {
        if (id === 'days') await bench.chooseTightest();
        else await page.getByRole('navigation').getByRole('button', { name: label }).click();
        await expect(page.getByRole('main')).not.toContainText('One moment…');
        await expectNoViolations(bench);
      });
    }

    for (const words of ['keys', 'settings', 'title water', 'my trips', 'all cautions', 'about']) {
      test(`the sheet for “${words}” holds WCAG 2.2 AA`, async ({ bench }) => {
        await bench.command(words);
        await expect(bench.dialog).toBeVisible();
        await expectNoViolations(bench);
      });
    }
  });
}

test('text at 200 percent loses nothing to the side', async ({ page, bench }) => {
  for (let i = 0; i < 5; i += 1) await bench.command('larger text');
  await bench.chooseTightest();
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe('32px');
  expect(
    await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth),
  ).toBeLessThanOrEqual(0);
  await bench.field('Depth').scrollIntoViewIfNeeded();
  await expect(bench.field('Depth')).toBeInViewport({ ratio: 1 });
});
