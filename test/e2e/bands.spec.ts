/** Every sentence about the bands beneath the strip that a hand could try. */
import { expect, test } from './fixtures';

test.describe('the bands', () => {
  test('read out time and value under the pointer, both at once', async ({ bench: { page } }) => {
    const band = await page.locator('.recharts-wrapper').first().boundingBox();
    await page.mouse.move(band!.x + band!.width / 2, band!.y + band!.height / 2);
    const readouts = page.locator('.band-readout');
    await expect(readouts).toHaveCount(2);
    await expect(readouts.first()).toContainText(
      /^\w{3} \d+, \d\d:\d\d (at [\d.]+ m )?nitrogen \d+ % of the surface limit, compartment \d+/,
    );
    await expect(readouts.last()).toContainText(/CNS clock \d+ %, rolling 24 h \d+ %$/);
  });

  test('read out the figures of now: after an edit nothing, until the pointer moves again', async ({
    page,
    strip,
  }) => {
    await strip.dive(12).focus();
    const line = await strip.dive(13).locator('[data-grip=start]').boundingBox();
    const band = await page.locator('.band').first().boundingBox();
    // At the surface after it, where the pointer stands at the same moment whatever the depth.
    const at = { x: line!.x - 4, y: band!.y + band!.height / 2 };
    const readout = page.locator('.band-readout').first();
    const read = async () => {
      await page.mouse.move(at.x - 30, at.y);
      await page.mouse.move(at.x, at.y, { steps: 6 });
      await expect(readout).toContainText('nitrogen');
      return (await readout.textContent()) ?? '';
    };
    const before = await read();
    for (let i = 0; i < 6; i += 1) await page.keyboard.press('ArrowUp');
    await expect(page.locator('.band-readout')).toHaveCount(0);
    const after = await read();
    expect(after).not.toBe(before);
    const cursor = await page.locator('.band').first().locator('.recharts-tooltip-cursor').boundingBox();
    expect(Math.abs(cursor!.x - at.x)).toBeLessThan(4);
  });

  test('read out time and value under the keyboard', async ({ bench: { page } }) => {
    // A pointer that rests on the band reads out there.
    await page.mouse.move(5, 5);
    const band = page.getByRole('application', { name: 'Nitrogen carried' });
    await band.focus();
    await page.keyboard.press('ArrowRight');
    const readout = page.locator('.band-readout').first();
    const before = await readout.textContent();
    await page.keyboard.press('ArrowRight');
    await expect(readout).not.toHaveText(before ?? '');
  });

  test('draw the limit and the moment flying is clear', async ({ bench: { page } }) => {
    await expect(page.locator('.recharts-reference-line')).not.toHaveCount(0);
    await expect(page.locator('.line-fly')).toContainText('no flying before Sat 20');
    await expect(page.locator('.line-flight')).toContainText('flight Sat 20, 16:30');
  });

  test('give the same figures as a table', async ({ bench: { page } }) => {
    await page.getByRole('button', { name: 'As a table' }).click();
    const table = page.getByRole('table', { name: /Nitrogen and oxygen carried by/ });
    await expect(table.getByRole('row')).toHaveCount(1 + 2 * 22 + 1 - 4);
    await expect(table.getByRole('row', { name: /Dive 13 surfaces/ })).toContainText(/%/);
    await page.getByRole('button', { name: 'As a table' }).click();
    await expect(page.locator('.recharts-wrapper')).toHaveCount(2);
  });

  test('show all sixteen compartments on demand', async ({ bench: { page } }) => {
    await expect(page.locator('.curve-nitrogen')).toHaveCount(1);
    await expect(page.locator('.curve-compartment')).toHaveCount(0);
    await page.getByRole('button', { name: 'All 16 compartments' }).click();
    await expect(page.locator('.curve-compartment')).toHaveCount(16);
    await page.getByRole('button', { name: 'As a table' }).click();
    const table = page.getByRole('table', { name: /Nitrogen and oxygen carried by/ });
    await expect(table.getByRole('columnheader')).toHaveCount(6 + 16);
  });
});
