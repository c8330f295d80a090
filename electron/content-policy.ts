/**
 * What a page of the workbench may load: itself, and nothing else anywhere. Sent as a header with every
 * file, by the desktop's scheme and by the loopback server alike, so that a page cannot lose it.
 */
const DIRECTIVES: readonly string[] = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' data:",
  // The bundle fetches its own fonts for the slates; there is no other address to reach.
  "connect-src 'self'",
  "worker-src 'self'",
  // No text becomes a script, and one policy may name scripts: the window's, which begins its own workers.
  "require-trusted-types-for 'script'",
  'trusted-types carryover-worker',
  "base-uri 'none'",
  "form-action 'none'",
  "frame-src 'none'",
  "frame-ancestors 'none'",
  "object-src 'none'",
];

export const CONTENT_SECURITY_POLICY = DIRECTIVES.join('; ');

/** The headers every response bears, besides its type. */
export const SAFE_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': CONTENT_SECURITY_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy':
    'camera=(), microphone=(), geolocation=(), usb=(), serial=(), hid=(), payment=(), display-capture=()',
  'cache-control': 'no-store',
};
