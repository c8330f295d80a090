import { describe, expect, it } from 'vitest';
import { knownToSystem } from '../../../electron/recent-files';

/** What the list of this program and that of the system have, after a file is opened. */
function after(platform: NodeJS.Platform) {
  const own: string[] = [];
  const system: string[] = [];
  const list = { list: () => own, remember: (path: string) => void own.push(path), forget: () => {} };
  const recent = knownToSystem(list, { addRecentDocument: (path) => void system.push(path) }, platform);
  recent.remember('/trips/week.carryover');
  return { own: recent.list(), system };
}

describe('knownToSystem', () => {
  it.each(['darwin', 'win32'] as const)('tells the system of each file that is opened: %s', (platform) => {
    expect(after(platform)).toEqual({
      own: ['/trips/week.carryover'],
      system: ['/trips/week.carryover'],
    });
  });

  it('keeps its own list where the system has none', () => {
    expect(after('linux')).toEqual({ own: ['/trips/week.carryover'], system: [] });
  });
});
