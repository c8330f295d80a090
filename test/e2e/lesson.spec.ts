import { readFile } from 'node:fs/promises';
import { expect, test } from './fixtures';
import { readPdf } from '../support/pdf/read-pdf';

test.describe('an exercise sheet', () => {
  test('comes from the class with two presses, and is saved as it is shown', async ({ bench }) => {
    const { page } = bench;
    await page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: 'Mixes' }).click();
    await page.getByRole('tab', { name: 'In class' }).click();
    await page.getByRole('button', { name: 'Exercises' }).click();
    const sheet = page.getByRole('dialog', { name: 'Exercise sheet' });
    await expect(sheet.getByRole('group', { name: 'Page 1' })).toContainText('Pressure and mixes');
    await expect(sheet.getByRole('group', { name: 'Page 2' })).toContainText('Answers');

    const field = sheet.getByLabel('Sheet');
    await field.fill('7');
    await field.press('Enter');
    await expect(sheet.getByRole('group', { name: 'Page 1' })).toContainText('sheet 7, level 3 of 3, metric');
    const loading = page.waitForEvent('download');
    await sheet.getByRole('button', { name: 'Save PDF' }).click();
    const file = await loading;
    expect(file.suggestedFilename()).toBe('exercises-7-level-3.pdf');
    const pages = await readPdf(await readFile(await file.path()));
    const texts = pages.map(({ words }) => words.map(({ text }) => text).join(' '));
    // The same question as the command prints for this seed.
    expect(texts[0]).toContain('A diver breathes EAN34 at 15 m. What is the PO2?');
    expect(texts[1]).toContain('Answers sheet 7, level 3 of 3, metric');
  });

  test('changes with level, number and sheet, and refuses what is out of range', async ({ bench }) => {
    const { page } = bench;
    await page.keyboard.press('Control+K');
    await page.getByRole('combobox', { name: /Find a command/ }).fill('exercise');
    await page.keyboard.press('Enter');
    const sheet = page.getByRole('dialog', { name: 'Exercise sheet' });
    const first = sheet.getByRole('group', { name: 'Page 1' });
    await expect(first).toContainText('CNS of two dives');
    await sheet.getByLabel('Level').selectOption('1');
    await expect(first).not.toContainText('CNS of two dives');
    await expect(first).toContainText('sheet 1, level 1 of 3, metric');
    await sheet.getByRole('button', { name: 'Another sheet' }).click();
    await expect(first).toContainText('sheet 2, level 1 of 3, metric');
    const count = sheet.getByLabel('Questions');
    await count.fill('21');
    await count.press('Enter');
    await expect(sheet.getByText('21 is no whole number from 1 to 20.')).toBeVisible();
    await count.fill('20');
    await count.press('Enter');
    await expect(first).toContainText('level 1 of 3');
    await expect(sheet.getByRole('group', { name: 'Page 3' })).toBeVisible();
    await sheet.getByRole('button', { name: 'Close' }).click();
    await expect(sheet).toBeHidden();
  });
});
