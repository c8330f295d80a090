/** What was refused or done, where no field stands to say it beside; it goes once something else is looked at. */
import type { HostTrouble } from '../../core/host';
import type { Trouble } from '../../core/result';
import { desk, type Notice } from './store';

/** A notice younger than this cannot have been read: what comes in the same breath leaves it. */
const UNREAD_MS = 2000;

let saidAtMs = 0;

export function say(notice: Notice | null): void {
  saidAtMs = performance.now();
  desk.setState({ notice });
}

/** Says why something was refused. */
export function sayTrouble(trouble: HostTrouble | Trouble): void {
  say({ tone: 'refused', lines: [trouble] });
}

/** Takes away a notice that has been there to read: the user has turned to something else. */
export function dropReadNotice(): void {
  if (desk.getState().notice !== null && performance.now() - saidAtMs > UNREAD_MS) {
    desk.setState({ notice: null });
  }
}
