/** What the parts of the double share: what happened, what the user will do, and whether the app is ready. */
import { join } from 'node:path';

export interface Happening {
  readonly kind: string;
  readonly detail?: unknown;
}

export const state = {
  isReady: false,
  /** In the order in which it happened, for tests of the order of start-up. */
  log: [] as Happening[],
  /** What the user does in the dialogs to come. */
  dialogAnswers: [] as unknown[],
};

export function happened(kind: string, detail?: unknown): void {
  state.log.push(detail === undefined ? { kind } : { kind, detail });
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
