import { describe, expect, it } from 'vitest';
import { windowMarks } from '../../../electron/window-marks';

function marked(isDestroyed = false) {
  const calls: unknown[][] = [];
  const note =
    (name: string) =>
    (...args: unknown[]): void =>
      void calls.push([name, ...args]);
  return {
    calls,
    isDestroyed: () => isDestroyed,
    setDocumentEdited: note('setDocumentEdited'),
    setProgressBar: note('setProgressBar'),
    setRepresentedFilename: note('setRepresentedFilename'),
  };
}

describe('windowMarks', () => {
  it('marks the file of the trip and its edits where the system has such marks', () => {
    const window = marked();
    const marks = windowMarks(window, 'darwin');
    marks.showTrip('/trips/week.carryover', true);
    marks.showTrip(undefined, false);
    expect(window.calls).toEqual([
      ['setRepresentedFilename', '/trips/week.carryover'],
      ['setDocumentEdited', true],
      ['setRepresentedFilename', ''],
      ['setDocumentEdited', false],
    ]);
  });

  it.each(['win32', 'linux'] as const)('asks nothing of a runtime that has none: %s', (platform) => {
    const window = marked();
    windowMarks(window, platform).showTrip('/trips/week.carryover', true);
    expect(window.calls).toEqual([]);
  });

  it('shows how far work is, and takes the bar away behind it', () => {
    const window = marked();
    const marks = windowMarks(window, 'linux');
    for (const share of [0, 0.5, null]) marks.showWork(share);
    expect(window.calls).toEqual([
      ['setProgressBar', 0],
      ['setProgressBar', 0.5],
      ['setProgressBar', -1],
    ]);
  });

  it('leaves a window alone that is gone', () => {
    const window = marked(true);
    const marks = windowMarks(window, 'darwin');
    marks.showTrip('/trips/week.carryover', true);
    marks.showWork(0.5);
    expect(window.calls).toEqual([]);
  });
});
