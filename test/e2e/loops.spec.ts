import { at, expect, test as base } from './fixtures';
import { PartyPage } from './pages/party';

const test = base.extend<{ party: PartyPage }>({ party: at(PartyPage) });

test('a diver is given a loop, takes it on a dive, and what comes of it follows', async ({
  page,
  bench,
  party,
}) => {
  await party.choose('Guide');
  await party.card.getByRole('button', { name: 'Dives on a breathing loop' }).click();
  await party.card.getByText('Breathing loop', { exact: true }).click();
  await expect(party.field('High setpoint, bar')).toHaveValue('1.2');
  await party.set('High setpoint, bar', '1.3');
  await party.set('A fresh scrubber lasts, minutes', '60');
  await party.set('Oxygen cylinder', '2');
  await expect(party.field('Oxygen fill')).toHaveValue('200 bar');

  await page.getByRole('navigation').getByRole('button', { name: 'Days' }).click();
  await bench.dive(1).click();
  await bench.whose('Guide').click();
  await bench.card.getByText('On a loop: nobody').click();
  await bench.card.getByLabel('Guide on the loop').check();
  const loop = bench.card.getByLabel('Loop of Guide');
  await expect(loop).toContainText('Setpoint 0.7, from 6 m 1.3; diluent Air');
  await expect(loop).toContainText(/Scrubber1\d min left/);
  await expect(loop).toContainText(/Bail-out.*From 15 m at 40 min: Air \d+ L/);
  await expect(bench.card).toContainText('Scrubber left');
  await expect(bench.card.getByText('On a loop: Guide')).toBeVisible();

  // What a mix would change is told of those who breathe one.
  await page.getByRole('navigation').getByRole('button', { name: 'Mixes' }).click();
  await page.getByRole('tab', { name: 'For one dive' }).click();
  await expect(page.getByText(/^On a loop, which breathes its diluent.*: Guide\.$/)).toBeVisible();
  await expect(page.getByLabel('Whose figures').getByRole('option')).toHaveText([
    'the party’s tightest',
    'Guest 1',
    'Guest 2',
    'Guest 3',
  ]);
  await page.getByRole('navigation').getByRole('button', { name: 'Days' }).click();

  // What holds for every loop: a diver who uses up twice the oxygen has less of it left.
  const left = async () => Number(/oxygen (\d+) bar/i.exec((await loop.textContent()) ?? '')?.[1]);
  await expect(loop).toContainText(/oxygen \d+ bar/i);
  const before = await left();
  await bench.command('loop tolerance');
  const rate = page.getByLabel('Oxygen used by a diver');
  await expect(rate).toHaveValue('1 L/min');
  await rate.fill('9');
  await rate.press('Enter');
  await expect(page.getByText(/Oxygen used on a loop.*is 9 L\/min.*5 L\/min/)).toBeVisible();
  await rate.fill('2');
  await rate.press('Enter');
  await expect(rate).toHaveValue('2 L/min');
  await page.keyboard.press('Escape');
  await expect.poll(left).toBeLessThan(before - 10);

  // On this dive alone, another diluent.
  await bench.card.getByText('On a loop: Guide').click();
  await bench.pick('Diluent', 'EAN32');
  await expect(loop).toContainText('diluent EAN32');

  // The second dive on the same scrubber is past it, until it is packed afresh.
  await bench.dive(2).click();
  await bench.card.getByText('On a loop: nobody').click();
  await bench.card.getByLabel('Guide on the loop').check();
  await expect(bench.card).toContainText('pack it afresh before this dive');
  await bench.card.getByLabel('fresh scrubber').check();
  await expect(bench.card).not.toContainText('pack it afresh before this dive');
  await expect(loop).toContainText(/Scrubber\d+ min left/);

  // Off the dive, the loop goes too.
  await bench.card.getByText('The whole party dives it').click();
  await bench.card.getByRole('checkbox', { name: 'Guide', exact: true }).uncheck();
  await expect(bench.card.getByText('Dived by 3 of 4')).toBeVisible();
  await expect(bench.card.getByText('On a loop')).toHaveCount(0);
});
