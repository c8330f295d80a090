import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { assert } from '../../core/result';
import type { FaceName } from '../../core/slate/faces';
import { readTrip } from '../../core/document/read-trip';
import { writeTrip } from '../../core/document/write-trip';
import { bigTrip } from '../bench/big-trip';
import { at, expect, test as base } from './fixtures';
import { holdBreath, LAID_OUT_MS, SlatesPlace, watchPrinting } from './pages/slates';
import { pdfTroubles, uncompressedPdf } from '../support/pdf/qpdf';
import { readPdf } from '../support/pdf/read-pdf';
import { readersCut } from '../support/slates';
import { differingShare, pageSizes, wordsByPage } from './pdf';

const test = base.extend<{ slates: SlatesPlace }>({ slates: at(SlatesPlace) });

const ROOT = join(import.meta.dirname, '..', '..');

const read = readTrip(readFileSync(join(ROOT, 'core/document/demo-trip.json'), 'utf8'));
assert(read.ok, 'the demo trip cannot be read');
const DEMO = read.value;

/** Words by which each kind is known. */
const PAGE_WORDS = {
  'Day card': 'No-stop limit',
  'Briefing sheet': 'Roll call',
  'Trip sheet': 'were the diver to go straight up',
  'Cylinder tags and log': 'I read, %',
} as const;

/**
 * Share of a page's points: no ink is elsewhere, only the dots of dotted lines fall on other points of the
 * picture. Worst seen: 0.00014, on a trip sheet with all its dashes; a line to write on is 0.0008 of a day card.
 */
const DIFFERING_SHARE = 0.0003;
/** A browser keeps the size of a page in whole points or pixels. */
const ROUNDED_PT = 0.8;

test.describe('slates', () => {
  test('saves a PDF whose pages are those of the command', async ({ slates }) => {
    const info = test.info();
    const download = await slates.saved('Save PDF');
    expect(download.suggestedFilename()).toMatch(/-card\.pdf$/);
    const mine = info.outputPath('window.pdf');
    await download.saveAs(mine);
    const theirs = info.outputPath('command.pdf');
    const command = ['--import', 'tsx', 'electron/terminal/plan.ts', '--slate', theirs];
    expect(spawnSync(process.execPath, command, { cwd: ROOT })).toMatchObject({ status: 0 });
    const saved = await readFile(mine);
    expect(await uncompressedPdf(saved)).toBe(await uncompressedPdf(await readFile(theirs)));

    const pages = await readPdf(saved);
    const text = pages.map((each) => each.text).join('');
    for (const diver of DEMO.party) expect(text).toContain(diver.name);
    await expect(slates.pages).toHaveCount(pages.length);
  });

  test('shows each word where the PDF has it, as wide as it is there', async ({ page, slates }, info) => {
    const download = await slates.saved('Save PDF');
    const file = info.outputPath('window.pdf');
    await download.saveAs(file);
    const [printed] = await readPdf(await readFile(file));
    const drawn = await page
      .locator('[data-part="slate-page"]')
      .first()
      .locator('svg text')
      .evaluateAll((texts) =>
        (texts as SVGTextElement[]).map((text) => ({
          word: text.textContent ?? '',
          x: Number(text.getAttribute('x')),
          y: Number(text.getAttribute('y')),
          width: text.getComputedTextLength(),
          font: text.getAttribute('font-family') ?? '',
          sizePt: Number(text.getAttribute('font-size')),
        })),
      );
    // Each drawn text begins where its first word is printed and ends where its last one does.
    const SHIFT_PT = 0.05;
    const WIDTH_PT = 0.05;
    // A unit begins with the white before it.
    for (const each of drawn.filter(({ word }) => word === word.trim())) {
      const words = each.word.trim().split(/\s+/);
      const onLine = printed!.words.filter(({ baseline }) => Math.abs(baseline - each.y) < SHIFT_PT);
      const first = onLine.find(({ text, x }) => text === words[0] && Math.abs(x - each.x) < SHIFT_PT);
      expect(first, `"${each.word}" at ${each.x}, ${each.y}`).toBeDefined();
      const font = each.font.replaceAll('"', '').replace('Slate ', '') as FaceName;
      const end = each.x + each.width - readersCut({ text: each.word, font, sizePt: each.sizePt });
      const last = onLine.find(
        ({ text, x, width }) => text === words.at(-1) && Math.abs(x + width - end) < WIDTH_PT,
      );
      expect(last, `the end of "${each.word}" at ${end}`).toBeDefined();
    }
    expect(drawn.length).toBeGreaterThan(30);
  });

  test('prints the divers, days, kind and paper chosen', async ({ page, slates }) => {
    await page.getByLabel('Guest 2', { exact: true }).check();
    await page.getByLabel('Tue 16 Mar 2027', { exact: true }).check();
    // The pages of the diver alone may come in between.
    await expect(slates.pages.first()).toContainText('Guest 2, Tue 16 March', { timeout: LAID_OUT_MS });
    const captions = slates.pages.locator('figcaption');
    await expect
      .poll(async () => {
        const texts = await captions.allTextContents();
        return texts.filter((text) => !/^\d+\. Guest 2, Tue 16 March, dive/.test(text));
      })
      .toEqual([]);
    await slates.choice('Kind').selectOption('Briefing sheet');
    await expect(slates.pages.first()).toContainText('Roll call', { timeout: LAID_OUT_MS });
    await expect(slates.choice('Paper')).toHaveValue('A4');
    await slates.choice('Kind').selectOption('Cylinder tags and log');
    await expect(slates.pages.last()).toContainText('Cylinder analysis log', { timeout: LAID_OUT_MS });
    // The tag that is printed where none is chosen is the one the field names, on either paper.
    await expect(slates.choice('Tag')).toHaveValue('95x54mm');
    await slates.choice('Paper').selectOption('letter');
    await expect(slates.choice('Tag')).toHaveValue('95x54mm');
    await slates.choice('Kind').selectOption('Trip sheet');
    await expect(slates.pages.first()).toContainText('were the diver to go straight up', {
      timeout: LAID_OUT_MS,
    });
    const download = await slates.saved('Save PDF');
    expect(download.suggestedFilename()).toMatch(/-trip\.pdf$/);
  });

  test('has room for the words of every choice', async ({ page, slates }) => {
    for (const kind of Object.keys(PAGE_WORDS)) {
      await slates.choice('Kind').selectOption(kind);
      const cutOff = () =>
        page.locator('[data-part="slates"] select').evaluateAll((selects) => {
          const ink = document.createElement('canvas').getContext('2d')!;
          return (selects as HTMLSelectElement[]).flatMap((select) => {
            ink.font = getComputedStyle(select).font;
            // Beside the words stands the arrow, as wide as the type is high, with a little white.
            const free = select.clientWidth - Number.parseFloat(getComputedStyle(select).fontSize) * 1.25;
            return [...select.options]
              .map(({ label }) => label)
              .filter((each) => ink.measureText(each).width > free);
          });
        });
      await slates.bench.settled();
      await expect.poll(cutOff, { message: kind }).toEqual([]);
    }
  });

  test('dims the paper at night on screen alone', async ({ page, slates }) => {
    const filterOf = (place: string) =>
      page
        .locator(`${place} svg`)
        .first()
        .evaluate((paper) => getComputedStyle(paper).filter);
    await page.evaluate(() => document.documentElement.setAttribute('data-look', 'light'));
    await expect.poll(() => filterOf('[data-part="slate-page"]')).toBe('none');
    await page.evaluate(() => document.documentElement.setAttribute('data-look', 'cabin'));
    await expect.poll(() => filterOf('[data-part="slate-page"]')).toBe('brightness(0.72)');
    const printed = await watchPrinting(page);
    const asked = printed.next();
    await slates.print();
    await asked;
    expect(await filterOf('[data-part="print-pages"]')).toBe('none');
  });

  test('follows an edit of the trip', async ({ page, bench, slates }) => {
    const before = await slates.pages.first().textContent();
    await page.getByRole('navigation').getByRole('button', { name: 'Days' }).click();
    await bench.dive(1).click();
    await bench.set('Depth', '11');
    await slates.go();
    await expect(slates.pages.first()).toContainText(/Leave the bottom at(No-stop limit)?11/, {
      timeout: LAID_OUT_MS,
    });
    await expect(slates.pages.first()).not.toHaveText(before ?? '');
  });

  test('says on a briefing what changed since the trip was opened, or since what is chosen', async ({
    page,
    bench,
    slates,
  }) => {
    await slates.choice('Kind').selectOption('briefing');
    await expect(slates.pages.first()).toContainText('Roll call', { timeout: LAID_OUT_MS });
    await expect(slates.pages.first()).not.toContainText('Changed');
    await page.getByRole('navigation').getByRole('button', { name: 'Days' }).click();
    await bench.dive(1).click();
    await bench.set('Depth', '11');
    await expect(bench.saved).toContainText('Saved');
    await slates.go();
    await expect(slates.pages.first()).toContainText('Changed', { timeout: LAID_OUT_MS });
    await expect(slates.pages.first()).toContainText('11 m, not 15 m.');

    const since = slates.choice('Changed since');
    await since.selectOption('nothing');
    await expect(slates.pages.first()).not.toContainText('Changed', { timeout: LAID_OUT_MS });
    // What was edited is saved by now, and then nothing has changed since.
    const save = since.locator('option', { hasText: /^Save of/ }).first();
    await since.selectOption((await save.getAttribute('value'))!);
    await expect(slates.pages.first()).toContainText('Nothing of this day.', { timeout: LAID_OUT_MS });
    await since.selectOption('opened');
    await expect(slates.pages.first()).toContainText('11 m, not 15 m.', { timeout: LAID_OUT_MS });
  });

  test('refuses a paper that cannot be, beside the field, and takes one that can', async ({
    page,
    slates,
  }) => {
    await slates.choice('Paper').selectOption('own size');
    const size = slates.choice('Paper, width x height');
    await size.fill('9000x10mm');
    await size.press('Enter');
    await expect(page.getByRole('alert')).toContainText('cannot be printed');
    await size.fill('120x180mm');
    await size.press('Enter');
    await expect(page.getByRole('alert')).toHaveCount(0);
    await expect(slates.pages.first().locator('svg')).toHaveAttribute('viewBox', /^0 0 680\.31/, {
      timeout: LAID_OUT_MS,
    });
    await size.fill('60x70mm');
    await size.press('Enter');
    await expect(page.locator('[data-part="troubles"]')).toContainText('Choose a larger paper', {
      timeout: LAID_OUT_MS,
    });
    await expect(page.getByRole('button', { name: 'Save PDF' })).toBeDisabled();
  });

  test('saves one PDF a diver, all in one archive', async ({ slates }) => {
    const download = await slates.saved('Save one PDF a diver (ZIP)');
    expect(download.suggestedFilename()).toMatch(/-card\.zip$/);
    const text = (await readFile(await download.path())).toString('latin1');
    expect(text.match(/%PDF-1\.7/g)).toHaveLength(DEMO.party.length);
    // Each name stands before its file and in the list at the end.
    for (const [i, { name }] of DEMO.party.entries()) {
      const file = `${i + 1} ${name} card.pdf`;
      expect(text.split(file)).toHaveLength(3);
    }
  });

  test('says which letters the font lacks', async ({ page, slates }) => {
    const trip = DEMO;
    const named = {
      ...trip,
      party: trip.party.map((diver, i) => (i === 0 ? { ...diver, name: '海 Guide' } : diver)),
    };
    await slates.bench.openFile('named.carryover', writeTrip(named));
    await expect(page.getByText('The fonts have no sign for 海')).toBeVisible({ timeout: LAID_OUT_MS });
  });

  test('shows how far a week for twelve is, and stops when told to', async ({
    page,
    bench,
    slates,
  }, info) => {
    await bench.openFile('twelve.carryover', writeTrip(bigTrip(28, 12)));
    await page.getByLabel('Every diving day').check();
    await expect(slates.count).toHaveText(/^\d+ cards, to fold: \d{2,3} pages$/, { timeout: LAID_OUT_MS });
    let saved = 0;
    page.on('download', () => (saved += 1));
    // The worker does not come until it is cancelled, so that there is something to cancel however quick it is.
    let isHeld = true;
    await page.route(/slate-worker/, (route) => (isHeld ? undefined : route.continue()));
    await page.getByRole('button', { name: 'Save one PDF a diver (ZIP)' }).click();
    await expect(page.getByRole('progressbar')).toBeVisible();
    await expect(page.getByText(/Guest \d+, \d+ of 12/)).toBeVisible();
    await page.getByRole('button', { name: 'Cancel' }).click();
    await expect(page.getByText('Stopped; nothing more was made.')).toBeVisible();
    await expect(page.getByRole('progressbar')).toHaveCount(0);
    expect(saved).toBe(0);
    isHeld = false;
    // And the next one goes through.
    const download = await slates.saved('Save PDF');
    const file = info.outputPath('twelve.pdf');
    await download.saveAs(file);
    expect((await readFile(file)).subarray(0, 5).toString()).toBe('%PDF-');
    expect(await pdfTroubles(await readFile(file))).toBe('');
  });

  test('prints through the browser\u2019s dialog what Save PDF saves, and nothing of the window', async ({
    page,
    slates,
  }, info) => {
    const printed = await watchPrinting(page);
    for (const [kind, paper, box] of [
      ['Day card', 'A6', /^0 0 595\.2/],
      ['Briefing sheet', 'letter', /^0 0 612 792/],
      ['Trip sheet', '120x190mm', /^0 0 538\.5/],
      ['Cylinder tags and log', 'A4', /^0 0 595\.2/],
    ] as const) {
      await slates.choice('Kind').selectOption(kind);
      await slates.choosePaper(paper);
      await expect(slates.pages.first()).toContainText(PAGE_WORDS[kind], { timeout: LAID_OUT_MS });
      await expect(slates.pages.first().locator('svg')).toHaveAttribute('viewBox', box, {
        timeout: LAID_OUT_MS,
      });
      const choices = page.getByRole('complementary', { name: 'What to print' });
      const before = await choices.innerHTML();
      const asked = printed.next();
      await slates.print();
      await asked;
      const file = info.outputPath(`${kind}.pdf`);
      await page.pdf({ path: file, preferCSSPageSize: true, printBackground: true });
      await expect(page.locator('[data-part="print-pages"]')).toHaveCount(0);
      await expect(page.locator('[data-part="job"]')).toHaveCount(0);
      await expect.poll(() => choices.innerHTML()).toBe(before);
      await expect(page).toHaveTitle(`${DEMO.title} · Carryover`);

      const saved = info.outputPath(`${kind} saved.pdf`);
      await (await slates.saved('Save PDF')).saveAs(saved);
      const pages = await wordsByPage(saved);
      expect(await wordsByPage(file)).toEqual(pages);
      const [sizes, wanted] = [await pageSizes(file), await pageSizes(saved)];
      expect(sizes).toHaveLength(pages.length);
      for (const [i, [width, height]] of sizes.entries()) {
        const [wantedWidth, wantedHeight] = wanted[i]!;
        expect(Math.abs(width - wantedWidth)).toBeLessThan(ROUNDED_PT);
        expect(Math.abs(height - wantedHeight)).toBeLessThan(ROUNDED_PT);
      }
      expect(await differingShare(file, saved)).toBeLessThan(DIFFERING_SHARE);
    }
  });

  test('prints the pages however printing is asked for here, and other places as they were', async ({
    page,
    bench,
    slates,
  }, info) => {
    const printed = await watchPrinting(page);
    const file = info.outputPath('printed.pdf');
    const count = await slates.pages.count();
    await page.keyboard.press('Control+p');
    await printed.next();
    await page.pdf({ path: file, preferCSSPageSize: true, printBackground: true });
    expect(await wordsByPage(file)).toHaveLength(count);
    await expect(page.locator('[data-part="print-pages"]')).toHaveCount(0);

    await page.getByRole('navigation').getByRole('button', { name: 'Days' }).click();
    await expect(bench.dive(1)).toBeVisible();
    await page.pdf({ path: file, preferCSSPageSize: true, printBackground: true });
    const words = (await readPdf(await readFile(file))).map(({ text }) => text).join('');
    expect(words).toContain(DEMO.title);
    expect(words).toContain('Nitrogen on surfacing');
    expect(words).not.toContain('file version');
  });

  test('says so where no dialog opens, and lets go of the pages', async ({ page, slates }) => {
    await page.evaluate(() => {
      window.print = () => {};
    });
    await slates.print();
    await expect(page.getByText('The browser opened no print dialog.')).toBeVisible();
    await expect(page.locator('[data-part="print-pages"]')).toHaveCount(0);
  });

  test('hands over a week for twelve, and stops when told to', async ({ page, bench, slates }, info) => {
    test.setTimeout(180_000);
    await bench.openFile('twelve.carryover', writeTrip(bigTrip(28, 12)));
    await page.getByLabel('Every diving day').check();
    await expect(slates.count).toHaveText(/^\d+ cards, to fold: \d{3} pages$/, { timeout: LAID_OUT_MS });
    const count = Number(/(\d+) pages/.exec((await slates.count.textContent())!)![1]);
    const printed = await watchPrinting(page);
    const letGo = await holdBreath(page);
    await slates.print();
    await expect(page.getByText('Handing the pages over')).toBeVisible({ timeout: LAID_OUT_MS });
    await page.getByRole('button', { name: 'Cancel' }).click();
    await letGo();
    await expect(page.getByText('Stopped; nothing more was made.')).toBeVisible();
    await expect(page.locator('[data-part="print-pages"]')).toHaveCount(0);

    const start = Date.now();
    const asked = printed.next();
    await slates.print();
    await asked;
    info.annotations.push({ type: 'ready for print', description: `${Date.now() - start} ms` });
    await expect(page.getByText('In the print dialog')).toBeVisible();
    const file = info.outputPath('twelve.pdf');
    await page.pdf({ path: file, preferCSSPageSize: true, printBackground: true });
    expect(await wordsByPage(file)).toHaveLength(count);
    await expect(page.locator('[data-part="print-pages"]')).toHaveCount(0);
  });
});
