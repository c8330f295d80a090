/* oxlint-disable unicorn/consistent-function-scoping -- what runs in the page cannot reach out of its own function */
import { expect, test, type OurWindow } from './pages/desktop';

test.describe.configure({ timeout: 120_000 });

const US = { url: 'carryover://app/index.html', parent: null };

test('the page has the bridge, and nothing else of the machine', async ({ desktops }) => {
  const { page } = await desktops.startWithDemo();
  const found = await page.evaluate(() => {
    const has = (name: string): boolean => name in globalThis;
    const { carryover } = globalThis as unknown as OurWindow;
    return {
      node: ['require', 'process', 'module', 'Buffer', 'global', 'electron', 'ipcRenderer'].filter(has),
      isFrozen: Object.isFrozen(carryover),
      calls: Object.keys(carryover).toSorted(),
      kinds: [...new Set(Object.values(carryover).map((member) => typeof member))],
    };
  });
  expect(found).toEqual({
    node: [],
    isFrozen: true,
    kinds: ['function'],
    calls: [
      'about',
      'dropUnsaved',
      'keepUnsaved',
      'listTrips',
      'listVersions',
      'loadSettings',
      'offerCommands',
      'onBeforeClose',
      'onCommand',
      'onOpenTrip',
      'openDropped',
      'openSource',
      'openText',
      'openTrip',
      'printPages',
      'readTrip',
      'readUnsaved',
      'readVersion',
      'removeTrip',
      'reportTrip',
      'reportWork',
      'saveDocument',
      'saveSettings',
      'saveTripAs',
      'showSaved',
      'watchTrips',
      'writeTrip',
    ],
  });
});

test('a call with other arguments than its own rejects, and nothing is written', async ({ desktops }) => {
  const { page } = await desktops.startWithDemo();
  const refusals = await page.evaluate(async () => {
    const { carryover } = globalThis as unknown as {
      carryover: Record<string, (...args: unknown[]) => Promise<unknown>>;
    };
    const calls: readonly [string, ...unknown[]][] = [
      ['readTrip', '../../../etc/passwd'],
      ['readTrip', 5],
      ['readUnsaved', 5],
      ['dropUnsaved', '../../x'],
      ['keepUnsaved', null, 'text', true],
      ['readTrip'],
      ['listTrips', 'extra'],
      ['writeTrip', null, 'text', 'title'],
      ['writeTrip', '/tmp/x', '{}', 'title', null],
      ['writeTrip', null, { text: 1 }, 'title', null],
      ['readVersion', `library-${'0'.repeat(32)}`, '../'.repeat(60)],
      ['saveDocument', 'not bytes', 'a.pdf', 'application/pdf'],
      ['saveDocument', new Uint8Array(1), 'a.html', 'text/html'],
      ['saveDocument', new Uint8Array(1), 'a.pdf.desktop', 'application/pdf'],
      ['saveSettings', { units: 'furlongs' }],
      ['saveSettings', { windowBounds: null }],
      ['openSource', 'x'.repeat(3000)],
      ['printPages', { widthMm: 0, heightMm: 148 }],
      ['printPages', { widthMm: 105, heightMm: 148, silent: true }],
    ];
    return Promise.all(
      calls.map(([name, ...args]) =>
        (carryover[name] as (...given: unknown[]) => Promise<unknown>)(...args).then(
          (value) => `${name} answered ${JSON.stringify(value)}`,
          (error: unknown) => (String(error).includes(`${name}: refused, `) ? 'refused' : String(error)),
        ),
      ),
    );
  });
  expect(refusals).toEqual(Array.from({ length: 19 }, () => 'refused'));
  expect(await desktops.libraryFiles()).toEqual([]);
});

test('a call from anywhere but the app’s own top frame rejects', { tag: '@double' }, async ({ desktops }) => {
  const { desktop } = await desktops.startWithDemo();
  const call = (senderFrame: unknown) =>
    desktop.invokeAs({ senderFrame, channel: 'call/listTrips', args: [] });
  expect((await call(US)).error).toBeUndefined();
  for (const url of [
    'https://example.org/',
    'http://app/index.html',
    'carryover://other/index.html',
    'carryover://user@app/index.html',
    'file:///index.html',
    'about:blank',
    'data:text/html,x',
    '',
  ]) {
    expect((await call({ url, parent: null })).error, url).toContain('not a page of this app');
  }
  expect((await call({ ...US, parent: US })).error).toContain("not the window's top frame");
  expect((await call(null)).error).toContain('not a page of this app');
});

/** What a page of the bundle breaks that asks for all that is not its own. */
const DIRECTIVES = [
  'connect-src',
  'frame-src',
  'img-src',
  'require-trusted-types-for',
  'script-src-elem',
  'style-src-elem',
  'trusted-types',
] as const;

test(
  'the policy stops scripts, styles, frames and requests that are not the bundle’s, and text as a script',
  { tag: '@double' },
  async ({ desktops }) => {
    desktops.expected.push(
      /Content Security Policy|This document requires|TrustedTypePolicy/,
      /ERR_BLOCKED|Failed to load/,
    );
    const { desktop, page } = await desktops.startWithDemo();
    const result = await page.evaluate(async (directives) => {
      const broken: string[] = [];
      const elsewhere: string = 'https://example.org/a.js';
      document.addEventListener('securitypolicyviolation', (event) => broken.push(event.effectiveDirective));
      const add = (tag: string, attributes: Record<string, string>, text = ''): void => {
        const element = document.createElement(tag);
        for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
        element.textContent = text;
        document.body.append(element);
      };
      add('style', {}, 'body { --inline: 1 }');
      add('link', { rel: 'stylesheet', href: 'https://example.org/a.css' });
      add('img', { src: 'https://example.org/a.png' });
      add('iframe', { src: 'https://example.org/' });
      const outcome = (work: () => unknown): Promise<string> =>
        Promise.resolve()
          .then(work)
          .then(
            () => 'done',
            () => 'refused',
          );
      const outcomes = {
        // Later, and so in the page's own right: what the test runs directly may evaluate, policy or not.
        eval: await outcome(
          () =>
            new Promise((resolve, reject) => {
              setTimeout(() => {
                try {
                  // oxlint-disable-next-line no-new-func, no-implied-eval -- that is the question
                  resolve(new Function('return 1')());
                } catch (error) {
                  reject(error);
                }
              });
            }),
        ),
        fetch: await outcome(() => fetch('https://example.org/')),
        script: await outcome(() => import(elsewhere)),
      };
      const { trustedTypes } = globalThis as unknown as {
        trustedTypes: { createPolicy: (name: string, rules: object) => unknown };
      };
      // Text that would become a script, wherever the platform makes one of it; and a policy that would vouch for it.
      const sinks: Readonly<Record<string, () => unknown>> = {
        'text of a script': () => add('script', {}, 'globalThis.ranInline = true'),
        'address of a script': () => add('script', { src: 'https://example.org/a.js' }),
        'address of an object': () => add('object', { data: 'https://example.org/a' }),
        'address of a worker': () => new Worker('data:text/javascript,1'),
        'worker of its own, by text': () => new Worker('/assets/a-1.js'),
        markup: () => (document.body.innerHTML += '<img src=x onerror="globalThis.ranInline = true">'),
        'markup beside': () => document.body.insertAdjacentHTML('beforeend', '<p>x</p>'),
        'markup written': () => document.write('<p>x</p>'),
        'text of a frame': () => add('iframe', { srcdoc: '<script>parent.ranInline = true</script>' }),
        'a policy of another name': () => trustedTypes.createPolicy('default', {}),
      };
      const accepted: string[] = [];
      for (const [name, sink] of Object.entries(sinks)) {
        if ((await outcome(sink)) === 'done') accepted.push(name);
      }
      await new Promise<void>((resolve) => {
        const areAll = (): boolean => directives.every((directive) => broken.includes(directive));
        const until = performance.now() + 10_000;
        const look = (): void =>
          areAll() || performance.now() > until ? resolve() : void setTimeout(look, 20);
        look();
      });
      return {
        outcomes,
        accepted,
        broken,
        ranInline: 'ranInline' in globalThis,
        isStyled: getComputedStyle(document.body).getPropertyValue('--inline') !== '',
      };
    }, DIRECTIVES);
    expect(result.ranInline).toBe(false);
    expect(result.isStyled).toBe(false);
    expect(result.outcomes).toEqual({ eval: 'refused', fetch: 'refused', script: 'refused' });
    expect(result.accepted).toEqual([]);
    expect(result.broken).toEqual(expect.arrayContaining([...DIRECTIVES]));
    // The policy came first: nothing even asked the network.
    expect(desktop.log().filter(({ kind }) => kind === 'request refused')).toEqual([]);
  },
);

test('the scheme serves the bundle alone, each file with the policy', async ({ desktops }) => {
  desktops.expected.push(/Failed to load resource/);
  const { page } = await desktops.startWithDemo();
  const answers = await page.evaluate(async () => {
    const ask = async (path: string, method = 'GET'): Promise<readonly [number, boolean]> => {
      const response = await fetch(path, { method });
      return [
        response.status,
        response.headers.get('content-security-policy')?.startsWith("default-src 'none'") === true,
      ];
    };
    return Promise.all([
      ask('/index.html'),
      ask('/'),
      ask('/index.html', 'POST'),
      ask('/..%2fmain%2fmain.js'),
      ask('/%2e%2e%2fpreload%2fpreload.cjs'),
      ask('/assets/..%2f..%2f..%2fpackage.json'),
      ask('/nothing.js'),
    ]);
  });
  expect(answers).toEqual([
    [200, true],
    [200, true],
    [405, true],
    [400, true],
    [400, true],
    [400, true],
    [404, true],
  ]);
});

test(
  'no lure takes the page anywhere, opens a window or starts a download',
  { tag: '@double' },
  async ({ desktops }) => {
    desktops.expected.push(/Content Security Policy|Not allowed to|Failed to load|ERR_/);
    const { desktop, page } = await desktops.startWithDemo();
    const address = page.url();
    const lures: readonly (() => void)[] = [
      () => void (location.href = 'https://example.org/'),
      () => void (location.href = 'http://127.0.0.1:1/?next=carryover://app/index.html'),
      () => location.assign('file:///etc/passwd'),
      () => location.replace('data:text/html,<p>lure'),
      () => {
        const link = document.createElement('a');
        link.href = 'https://example.org/link';
        document.body.append(link);
        link.click();
      },
      () => {
        const link = document.createElement('a');
        link.href = 'https://example.org/new';
        link.target = '_blank';
        document.body.append(link);
        link.click();
      },
      () => void window.open('https://example.org/open'),
      () => void window.open('about:blank'),
      () => {
        const form = document.createElement('form');
        form.action = 'https://example.org/form';
        document.body.append(form);
        form.submit();
      },
      () => {
        const refresh = document.createElement('meta');
        refresh.httpEquiv = 'refresh';
        refresh.content = '0;url=https://example.org/refresh';
        document.head.append(refresh);
      },
      () => {
        const link = document.createElement('a');
        link.href = URL.createObjectURL(new Blob(['x']));
        link.download = 'lure.exe';
        link.click();
      },
    ];
    for (const lure of lures) {
      // A lure that tries to leave cuts the answer off; where the page is afterwards is what counts.
      await page.evaluate(lure).catch(() => {});
    }
    await expect
      .poll(() => desktop.log().filter(({ kind }) => kind === 'window.open').length)
      .toBeGreaterThanOrEqual(3);
    await expect
      .poll(() => desktop.log().filter(({ kind }) => kind === 'download'))
      .toEqual([{ kind: 'download', detail: { isAllowed: false } }]);
    const navigations = () => desktop.log().filter(({ kind }) => kind === 'navigation');
    await expect.poll(() => navigations().length).toBeGreaterThanOrEqual(3);
    for (const { detail } of navigations()) expect(detail).toMatchObject({ isPrevented: true });
    await expect.poll(() => page.context().pages().length).toBe(1);
    expect(page.url()).toBe(address);
    await expect(page.getByRole('listbox', { name: 'Dives' })).toBeVisible();
  },
);

test('no permission is granted', { tag: '@double' }, async ({ desktops }) => {
  const { page } = await desktops.startWithDemo();
  const answers = await page.evaluate(async () => {
    const asked = (work: Promise<unknown>): Promise<string> =>
      work.then(
        (answer) => String((answer as { state?: string } | null)?.state ?? answer),
        (error: unknown) => (error as Error).name,
      );
    return {
      notifications: await asked(Notification.requestPermission()),
      camera: await asked(navigator.mediaDevices.getUserMedia({ video: true })),
      place: await asked(
        new Promise((resolve, reject) =>
          navigator.geolocation.getCurrentPosition(resolve, () => reject(new Error())),
        ),
      ),
      query: await asked(navigator.permissions.query({ name: 'geolocation' })),
    };
  });
  expect(answers).toEqual({
    notifications: 'denied',
    camera: 'NotAllowedError',
    place: 'Error',
    query: 'denied',
  });
});

test('a source is opened only where the app cites it and the user says so', async ({ desktops }) => {
  const { desktop, page } = await desktops.startWithDemo();
  const open = (url: string) =>
    page.evaluate((address) => (globalThis as unknown as OurWindow).carryover.openSource(address), url);
  await desktop.answerDialog({ response: 1 });
  expect(await open('https://doi.org/10.1007/3-540-12345-6')).toEqual({ ok: true, value: null });
  for (const url of [
    'https://example.org/?next=https://doi.org/',
    'http://doi.org/',
    'file:///etc/passwd',
    'javascript:1',
  ]) {
    expect(await open(url)).toMatchObject({ ok: false, trouble: { kind: 'refused' } });
  }
  expect(desktop.log().filter(({ kind }) => kind === 'shell.openExternal')).toEqual([]);
  await desktop.answerDialog({ response: 0 });
  await open('https://DOI.org/10.1000/a b');
  await expect
    .poll(() => desktop.log().filter(({ kind }) => kind === 'shell.openExternal'))
    .toEqual([{ kind: 'shell.openExternal', detail: 'https://doi.org/10.1000/a%20b' }]);
});

test('only a developer’s run may open the inspector', { tag: '@double' }, async ({ desktops }) => {
  const desktop = await desktops.start({ isPackaged: true });
  await desktop.page();
  const made = desktop.log().find(({ kind }) => kind === 'new BrowserWindow');
  expect(made?.detail).toMatchObject({
    webPreferences: { devTools: false, sandbox: true, contextIsolation: true },
  });
  const labels = JSON.stringify(await desktop.menu());
  expect(labels).not.toContain('toggleDevTools');
});
