/** What no page may do in this app: one function a rule, all of them called from `secureApp` and `secureSession`. */
import { app, type Session, type WebContents } from 'electron';
import { isOurAddress, START_URL } from './scheme';

/** Rules for every window, frame and webview that will ever be made; before the app is ready. */
export function secureApp(isDeveloping: boolean): void {
  // For every renderer at once, also for one that some library might open without asking.
  app.enableSandbox();
  app.on('web-contents-created', (_event, contents) => {
    refuseNavigation(contents);
    refuseWindows(contents);
    refuseWebviews(contents);
    if (!isDeveloping) refuseInspector(contents);
  });
}

/** Rules for everything that a page may ask of the machine or the network; once the app is ready. */
export function secureSession(session: Session): void {
  refusePermissions(session);
  refuseNetwork(session);
  refuseDownloads(session);
  refuseSpellchecker(session);
}

/** The page stays the page: a link, a script or a dropped file cannot put another in its place. */
function refuseNavigation(contents: WebContents): void {
  contents.on('will-navigate', (event) => refuseOther(event, event.url));
  contents.on('will-frame-navigate', (event) => refuseOther(event, event.url));
  contents.on('will-redirect', (event) => event.preventDefault());
}

function refuseOther(event: { preventDefault(): void }, url: string): void {
  if (url !== START_URL) event.preventDefault();
}

function refuseWindows(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
}

function refuseWebviews(contents: WebContents): void {
  contents.on('will-attach-webview', (event) => event.preventDefault());
}

function refuseInspector(contents: WebContents): void {
  contents.on('devtools-opened', () => contents.closeDevTools());
}

/** Without these handlers the runtime grants whatever a page asks for. */
function refusePermissions(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
}

/** Nothing is fetched from anywhere but the bundle: no http, no ws, no file. */
function refuseNetwork(session: Session): void {
  session.webRequest.onBeforeRequest({ urls: ['<all_urls>'] }, ({ url }, answer) => {
    answer({ cancel: !isAllowedRequest(url) });
  });
}

/** Pages of the bundle, pictures held in memory, and the inspector's own pages, which only developers have. */
export function isAllowedRequest(url: string): boolean {
  return isOurAddress(url) || url.startsWith('data:image/') || url.startsWith('devtools://');
}

/** A page saves through the bridge, where the user chooses the place. */
function refuseDownloads(session: Session): void {
  session.on('will-download', (event) => event.preventDefault());
}

/** Its dictionaries would come over the network. */
function refuseSpellchecker(session: Session): void {
  session.setSpellCheckerEnabled(false);
}
