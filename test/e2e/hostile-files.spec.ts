/**
 * Files made to stall the window or to repaint what shows them: it says what is wrong, where and how to mend it, is
 * free again within a second of the processor's time, and what is on screen stays. All of them, and far more: test/attack.
 */
import { readFile } from 'node:fs/promises';
import { expect, test as base } from './fixtures';
import { SitesPage } from './pages/sites';
import { StartingSheetPage } from './pages/starting';
import type { Workbench } from './pages/workbench';

type Loose = any; // oxlint-disable-line typescript/no-explicit-any -- documents that are spoilt on purpose

const LONGEST_MS = 1000;

/** Runs work and returns the time that the window's thread worked meanwhile, ms; other programs do not lengthen it. */
async function threadMs(bench: Workbench, work: () => Promise<void>): Promise<number> {
  const session = await bench.page.context().newCDPSession(bench.page);
  const taskMs = async (): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return 1000 * metrics.find(({ name }) => name === 'TaskDuration')!.value;
  };
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const before = await taskMs();
  await work();
  const ms = (await taskMs()) - before;
  await session.detach();
  // A clock that stands still would find everything quick.
  expect(ms).toBeGreaterThan(0.1);
  return ms;
}

interface Fixtures {
  /** The trip on screen as a file. */
  readonly demo: { readonly [key: string]: Loose };
}

const test = base.extend<Fixtures>({
  demo: async ({ page, bench }, use) => {
    await expect(bench.dive(1)).toBeVisible();
    const download = page.waitForEvent('download');
    await page.keyboard.press('Control+Shift+s');
    await use(JSON.parse(await readFile(await (await download).path(), 'utf8')));
  },
});

interface Hostile {
  readonly what: string;
  readonly spoil: (trip: Loose) => string | Uint8Array;
  /** What is told: what is wrong, where, and how to mend it. */
  readonly says: readonly RegExp[];
}

const many = (count: number, of: unknown = 0): unknown[] => Array.from({ length: count }, () => of);
const spoilt = (spoil: (trip: Loose) => void) => (trip: Loose) => {
  spoil(trip);
  return JSON.stringify(trip);
};

const HOSTILE: readonly Hostile[] = [
  {
    what: '124,000 levels of one dive',
    spoil: spoilt((trip) => {
      trip.dives[0].legs = many(124_000, { depthM: 20, min: 2 });
    }),
    says: [/124000/, /dives\[0\]\.legs/],
  },
  {
    what: '120,000 troubles',
    spoil: spoilt((trip) => {
      const wrong = { legs: many(20), onBoard: many(5), divers: many(5), asDived: many(60) };
      trip.party = many(60, { before: many(20, wrong) });
      trip.dives = many(300, wrong);
    }),
    says: [/party\[0\]/, /And more; mend these first\./],
  },
  {
    what: '60,000 sites',
    spoil: spoilt((trip) => {
      trip.sites = many(60_000, { id: 's', name: 'Reef', depthM: 20 });
    }),
    says: [/60000/, /sites/],
  },
  {
    what: '60,000 dives at sites that nobody knows',
    spoil: spoilt((trip) => {
      trip.dives = many(60_000, { id: 'd', siteId: 'nowhere' });
    }),
    says: [/60000/, /dives/],
  },
  {
    what: 'escape codes in its names',
    spoil: spoilt((trip) => {
      trip.title = '\u001b[2J\u001b[31mOur week';
      trip.party[0].name = '\u001b]0;x\u0007Guide';
    }),
    says: [/title/, /party\[0\]\.name/, /cannot be shown|sign/],
  },
  {
    what: 'control characters, half a sign and names of nothing',
    spoil: spoilt((trip) => {
      trip.sites[0].name = 'Kettle\u0000Rock';
      trip.sites[1].name = '\ud800';
      trip.party[0].name = '\u200b\u200d';
    }),
    says: [/sites\[0\]\.name/, /sites\[1\]\.name/, /party\[0\]\.name/],
  },
  {
    what: 'brackets by the million',
    spoil: () => `{"format": "carryover/trip", "version": 1, "x": ${'['.repeat(2_400_000)}`,
    says: [/nested deeper than 100/, /Take out what does not belong/],
  },
  {
    what: 'bytes that are no text',
    spoil: (trip) => {
      const bytes = new TextEncoder().encode(JSON.stringify(trip));
      bytes.fill(0xff, 40, 60);
      return bytes;
    },
    says: [/not UTF-8/, /Choose a trip file/],
  },
  {
    what: 'more than a trip can have',
    spoil: () => ' '.repeat(6_000_000),
    says: [/The file has 6 MB/, /Choose a trip file/],
  },
];

test('a file that is made to stall is told at once, whatever is in it, and nothing is lost', async ({
  page,
  bench,
  demo,
}) => {
  test.setTimeout(300_000);
  const sentence = (await bench.sentence.textContent()) ?? '';
  const trouble = bench.dialog.or(page.getByRole('alert'));
  for (const { what, spoil, says } of HOSTILE) {
    const open = (): Promise<number> =>
      threadMs(bench, async () => {
        await bench.openFile('hostile.json', spoil(structuredClone(demo)));
        await expect(trouble, what).toContainText(says[0]!);
      });
    let ms = await open();
    if (ms > LONGEST_MS) {
      // A collection of garbage may fall into any one; what is slow of itself is slow each time.
      await page.keyboard.press('Escape');
      ms = Math.min(ms, await open());
    }
    for (const each of says) await expect(trouble, what).toContainText(each);
    // Told in full are as many as are read; a page of thousands is no answer.
    expect((await trouble.textContent())!.length, what).toBeLessThan(12_000);
    expect(ms, what).toBeLessThan(LONGEST_MS);
    await page.keyboard.press('Escape');
    await expect(bench.dialog, what).toHaveCount(0);
    await expect(bench.sentence, what).toHaveText(sentence);
  }
  await bench.chooseTightest();
  await bench.set('Bottom time', '17');
  await bench.waitForSave();
  await bench.reload();
  await expect(bench.title).toHaveText(demo.title);
});

test.describe('a list of sites', () => {
  const LISTS: readonly (readonly [string, string, RegExp])[] = [
    ['of 60,000 rows', 'Reef\t18\n'.repeat(60_000), /There are 60000 rows; a trip holds 500 sites/],
    [
      'of two rows that an expression could stall on',
      `Reef\t18\t${'1 '.repeat(900_000)}E\nWall\t18`,
      /line 1/i,
    ],
    ['with escape codes', `\u001b[2JReef\t18\t${'x'.repeat(200_000)}\nWall\t20`, /line 1/i],
  ];
  for (const [what, text, says] of LISTS) {
    test(`${what} is told at once`, async ({ bench }) => {
      await bench.command('sites from a list');
      const sites = new SitesPage(bench);
      const ms = await threadMs(bench, async () => {
        await sites.sheet.getByLabel('Rows of sites').focus();
        await sites.paste(text);
        await expect(sites.sheet).toContainText(says);
      });
      expect(ms).toBeLessThan(LONGEST_MS);
      await expect(sites.sheet).toContainText('too long to be shown here');
      await sites.sheet.getByRole('button', { name: 'Clear the list' }).click();
      await sites.sheet.getByLabel('Rows of sites').fill('Wall\t18');
      await expect(sites.sheet.getByRole('table').getByRole('row', { name: /Wall/ })).toBeVisible();
    });
  }
});

test('the starting sheet tells four troubles of an answer, and how many more there are', async ({
  firstStart,
}) => {
  const start = new StartingSheetPage(firstStart);
  await start.begin();
  const names = Array.from({ length: 60 }, (_, at) => `${'Guest '.repeat(40)}${at}`).join(', ');
  await start.set('Names, or how many', names);
  const who = start.part('Who');
  await expect(who).toContainText('And 56 more.');
  await expect(who.getByText(/characters/)).toHaveCount(4);
});
