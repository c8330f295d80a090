/** What the parts of the double share: what happened, what the user will do, and whether the app is ready. */
import { join } from 'node:path';

export interface Happening {
  readonly kind: string;
  readonly detail?: unknown;
}

export const state = {
  isReady: false,
  /** What the user does in the dialogs to come. */
  dialogAnswers: [] as unknown[],
};

/** Tells the test at once, so that nothing is lost where the process ends the next moment. */
export function happened(kind: string, detail?: unknown): void {
  const happening: Happening = detail === undefined ? { kind } : { kind, detail };
  process.send?.({ happening });
}

function setting(name: string): string {
  const value = process.env[name];
  if (value === undefined) throw new Error(`electron double: ${name} is not set`);
  return value;
}

export const USER_DATA = setting('DOUBLE_USER_DATA');
export const APP_ROOT = setting('DOUBLE_APP_ROOT');
export const PROFILE = join(USER_DATA, 'chromium-of-the-double');

/** A member that a test would need and the double lacks: a fault of the double, said loudly. */
export function strict<T extends object>(name: string, members: T): T {
  return new Proxy(members, {
    get(target, key, receiver) {
      if (key in target || typeof key === 'symbol' || key === 'then')
        return Reflect.get(target, key, receiver);
      throw new Error(`electron double: ${name}.${key} is not implemented`);
    },
  });
}
