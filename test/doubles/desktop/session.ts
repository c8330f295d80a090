/** `session.defaultSession`: permissions, requests and downloads, decided by the handlers that the app sets. */
import { EventEmitter } from 'node:events';
import { happened, strict } from './state';

type PermissionRequest = (
  contents: unknown,
  permission: string,
  answer: (isGranted: boolean) => void,
) => void;
type PermissionCheck = (contents: unknown, permission: string) => boolean;
type BeforeRequest = (details: { url: string }, answer: (response: { cancel?: boolean }) => void) => void;

class Session extends EventEmitter {
  private onPermissionRequest: PermissionRequest | undefined;
  private onPermissionCheck: PermissionCheck | undefined;
  private onBeforeRequest: BeforeRequest | undefined;

  readonly webRequest = strict('webRequest', {
    onBeforeRequest: (_filter: unknown, handler: BeforeRequest) => {
      happened('webRequest.onBeforeRequest');
      this.onBeforeRequest = handler;
    },
  });

  setPermissionRequestHandler(handler: PermissionRequest): void {
    happened('setPermissionRequestHandler');
    this.onPermissionRequest = handler;
  }

  setPermissionCheckHandler(handler: PermissionCheck): void {
    happened('setPermissionCheckHandler');
    this.onPermissionCheck = handler;
  }

  setDevicePermissionHandler(): void {
    happened('setDevicePermissionHandler');
  }

  setSpellCheckerEnabled(isEnabled: boolean): void {
    happened('setSpellCheckerEnabled', isEnabled);
  }

  /** Granted where no handler says otherwise, as the runtime does. */
  askPermission(contents: unknown, permission: string): Promise<boolean> {
    const handler = this.onPermissionRequest;
    return handler === undefined
      ? Promise.resolve(true)
      : new Promise((resolve) => handler(contents, permission, resolve));
  }

  checkPermission(contents: unknown, permission: string): boolean {
    return this.onPermissionCheck?.(contents, permission) ?? true;
  }

  mayRequest(url: string): Promise<boolean> {
    const handler = this.onBeforeRequest;
    return handler === undefined
      ? Promise.resolve(true)
      : new Promise((resolve) => handler({ url }, ({ cancel }) => resolve(cancel !== true)));
  }

  /** Whether a download may go on. */
  mayDownload(): boolean {
    let isPrevented = false;
    this.emit('will-download', { preventDefault: () => void (isPrevented = true) }, {}, {});
    return !isPrevented;
  }
}

export const defaultSession = new Session();
export const session = strict('session', { defaultSession: strict('defaultSession', defaultSession) });
