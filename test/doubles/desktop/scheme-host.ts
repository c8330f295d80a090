/** The app's own scheme, which plain Chromium does not know: a stand-in host that every request goes through. */

const handlers = new Map<string, (request: Request) => Response | Promise<Response>>();

export const schemes = {
  register: (scheme: string, handler: (request: Request) => Response | Promise<Response>): void => {
    handlers.set(scheme, handler);
  },
  handlerOf: (url: string) => handlers.get(new URL(url).protocol.slice(0, -1)),
};

/** `carryover://app/x` as a page of plain Chromium has it: `http://app.carryover.localhost/x`. */
export function toPage(url: string): string {
  const [, scheme = '', host = '', rest = ''] = /^([\w+.-]+):\/\/([^/]*)(.*)$/.exec(url) ?? [];
  return handlers.has(scheme) ? `http://${host}.${scheme}.localhost${rest}` : url;
}

/** The address as the app knows it. */
export function toApp(url: string): string {
  const [, host = '', scheme = '', rest = ''] =
    /^http:\/\/([^/]*)\.([\w+-]+)\.localhost(.*)$/.exec(url) ?? [];
  return handlers.has(scheme) ? `${scheme}://${host}${rest}` : url;
}
