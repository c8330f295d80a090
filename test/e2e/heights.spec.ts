import { expect, test } from './fixtures';
import { SitesPage } from './pages/sites';

test('a pass on the way home is put on the trip, waited for, marked on the strip and taken away', async ({
  page,
  bench,
}) => {
  await bench.command('mountain pass');
  const sheet = page.getByRole('dialog', { name: 'The trip' });
  await sheet.getByRole('button', { name: 'Add a pass, a lake or another height' }).click();
  const stay = sheet.getByRole('group', { name: 'A pass' });
  // Ten in the morning after is too soon by twenty minutes; the afternoon would do.
  await expect(stay).toContainText('Too soon: for');
  await stay.getByLabel('From', { exact: true }).fill('15:00');
  await page.keyboard.press('Enter');
  await expect(stay).toContainText('Going up is clear from');
  // On the evening of the last dive it is too soon, and the sheet says until when to wait.
  await stay.getByLabel('Height', { exact: true }).fill('2100');
  await page.keyboard.press('Enter');
  await stay.getByLabel('Up there on', { exact: true }).fill('2027-03-19');
  await page.keyboard.press('Enter');
  await stay.getByLabel('From', { exact: true }).fill('20:00');
  await page.keyboard.press('Enter');
  await expect(stay).toContainText('Too soon: for');
  await expect(stay.getByRole('list', { name: 'Going up is clear, by each view' })).toContainText(
    'Published hours',
  );
  await page.keyboard.press('Escape');
  const mark = page.getByRole('img', { name: /^At 2100 m from .*: A pass$/ });
  await expect(mark).toBeAttached();
  await bench.command('All cautions');
  await expect(page.getByRole('dialog')).toContainText('The climb to 2100 m (“A pass”)');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+z');
  await expect(mark).toHaveCount(1);

  // A site in the mountains has its own water.
  const sites = new SitesPage(bench);
  await sites.go();
  await sites.table.getByRole('button', { name: 'More about Candle Harbour' }).click();
  const about = sites.table.getByRole('group', { name: 'About Candle Harbour' });
  await about.getByLabel('Altitude', { exact: true }).fill('1850');
  await page.keyboard.press('Enter');
  await about.getByLabel('Water', { exact: true }).selectOption('Fresh water');
  await expect(sites.row('Candle Harbour')).toContainText('its own water');
});

test('the second demo opens beside the first, with its heights on the strip', async ({ page, bench }) => {
  await bench.command('demo over a pass');
  await expect(bench.title).toContainText('home over the Saddle');
  await expect(bench.sentence).toContainText('All 7 dives are within limits');
  await expect(page.getByRole('img', { name: /^At 640 m from .*: Up at the tarn$/ })).toBeAttached();
  await expect(page.getByRole('img', { name: /^At 2100 m from .*: Over the Saddle$/ })).toBeAttached();

  // The lines over the sites are of the sea, and what a loop takes is counted with every list.
  await page.getByRole('navigation').getByRole('button', { name: 'Mixes' }).click();
  await expect(page.getByRole('figure')).toContainText('For sea water at 0 m, not for Upper Tarn.');
  await page.getByRole('tab', { name: 'What to stock' }).click();
  const onBoard = page.getByRole('complementary', { name: /on board$/ });
  await expect(onBoard).toContainText('On a loop: Guest 3 (Air as diluent, EAN32 as bail-out).');
  // Bail-out of EAN32 once, oxygen for each of seven dives; diluent is air.
  await expect(onBoard.getByRole('row', { name: /^Guest 3/ })).toHaveText(/^Guest 31–7EUR\s9$/);
});
