/** What was refused or done, where no field stands to say it beside; it goes once something else is looked at. */
import { desk, type Notice } from './store';

/** A notice younger than this cannot have been read: what comes in the same breath leaves it. */
const UNREAD_MS = 2000;

let saidAtMs = 0;

export function say(notice: Notice | null): void {
  saidAtMs = performance.now();
  desk.setState({ notice });
}

/** Takes away a notice that has been there to read: the user has turned to something else. */
export function dropReadNotice(): void {
  if (desk.getState().notice !== null && performance.now() - saidAtMs > UNREAD_MS) {
    desk.setState({ notice: null });
  }
}
