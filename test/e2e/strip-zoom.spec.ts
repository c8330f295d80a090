/** Coming closer on the strip, by all that a hand has for it. */
import { expect, test } from './fixtures';

test.describe('coming closer', () => {
  test('by the keys, and back to the whole trip', async ({ page, strip }) => {
    const whole = await strip.width();
    await strip.dive(13).focus();
    await page.keyboard.press('+');
    await expect.poll(() => strip.width()).toBeGreaterThan(whole * 1.3);
    await expect(strip.dive(13)).toBeInViewport();
    await page.keyboard.press('0');
    await expect.poll(() => strip.width()).toBe(whole);
  });

  test('by the wheel with Ctrl, keeping the moment under the pointer; the wheel alone scrolls', async ({
    page,
    strip,
  }) => {
    const dive = strip.dive(13).locator('[data-grip=depth]');
    const before = await dive.boundingBox();
    await page.mouse.move(before!.x + 8, before!.y + 10);
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, -200);
    await page.keyboard.up('Control');
    await expect.poll(() => strip.width()).toBeGreaterThan(1000);
    await expect.poll(async () => Math.abs((await strip.leftOf(13, 'depth')) - before!.x)).toBeLessThan(4);
    const scrolled = await strip.scrolled();
    await page.mouse.wheel(0, 120);
    await expect.poll(() => strip.scrolled()).toBeGreaterThan(scrolled);
  });

  test('by two fingers, keeping the moment between them', async ({ page, strip }) => {
    const whole = await strip.width();
    const dive = strip.dive(13).locator('[data-grip=depth]');
    const before = await dive.boundingBox();
    await strip.pinch({ x: before!.x + before!.width / 2, y: before!.y - 60 }, 40, 130);
    await expect.poll(() => strip.width()).toBeGreaterThan(whole * 2);
    await expect.poll(async () => Math.abs((await strip.leftOf(13, 'depth')) - before!.x)).toBeLessThan(2.5);
    expect(await page.evaluate(() => visualViewport?.scale)).toBe(1);
    await strip.pinch({ x: before!.x + before!.width / 2, y: before!.y - 60 }, 130, 40);
    await expect.poll(() => strip.width()).toBeLessThan(whole * 1.5);
  });

  test('to a day alone, and on to the day beside it', async ({ page, strip, bench }) => {
    await bench.dive(5).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Day', exact: true }).click();
    const next = page.getByRole('button', { name: /^Tue 16.* →$/ });
    await expect(next).toBeInViewport();
    await next.click();
    await expect(page.getByRole('button', { name: /^← Mon 15/ })).toBeInViewport();
    await expect(bench.dive(8)).toBeInViewport();
    await expect(bench.dive(5)).not.toBeInViewport();
    await expect.poll(() => strip.width()).toBeGreaterThan(4000);
  });

  test('to the days ahead by a key and a button, once some are done', async ({ page, bench, strip }) => {
    const whole = await strip.width();
    const ahead = page.getByRole('button', { name: 'Days ahead' });
    await expect(ahead).toHaveCount(0);
    await bench.dive(3).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('l');
    await page.getByRole('button', { name: 'Rest as planned' }).click();
    await page.keyboard.press('Escape');
    await expect(ahead).toBeVisible();
    await bench.dive(4).focus();
    await page.keyboard.press('9');
    // Seven days were on the page, six are.
    await expect.poll(() => strip.width()).toBeGreaterThan(whole * 1.1);
    await expect(ahead).toHaveAttribute('aria-pressed', 'true');
    await expect(bench.dive(4)).toBeInViewport();
    await expect(bench.dive(3)).not.toBeInViewport();
  });

  test('by the buttons', async ({ page, strip }) => {
    const whole = await strip.width();
    await page.getByRole('button', { name: 'Zoom in' }).click();
    await expect.poll(() => strip.width()).toBeGreaterThan(whole);
    await page.getByRole('button', { name: 'Whole trip' }).click();
    await expect.poll(() => strip.width()).toBe(whole);
  });
});
