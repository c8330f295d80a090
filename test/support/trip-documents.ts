/** Trip files as JSON that a test may break: fresh copies, loosely typed on purpose. */
import { readFileSync } from 'node:fs';

// Tests put anything into a document, as hands and other programs do.
// eslint-disable-next-line typescript/no-explicit-any
export type Loose = any;

const FOLDER = new URL('../fixtures/trips/', import.meta.url);

/** The text of a frozen file, `v1-full` or `v3-minimal`. */
export function fixtureText(name: string): string {
  return readFileSync(new URL(`${name}.json`, FOLDER), 'utf8');
}

export function fixture(name: string): Loose {
  return JSON.parse(fixtureText(name));
}

/** Ten dives over three days for two divers, one mix, nothing left to defaults that a test may want to break. */
export function tenDives(): Loose {
  return {
    format: 'carryover/trip',
    version: 3,
    title: 'Ten dives',
    party: ['a', 'b'].map((id) => ({
      id,
      name: `Guest ${id}`,
      surfaceRateLpm: 15,
      cylinder: { waterL: 15, fillBar: 200, reserveBar: 50 },
      maxDepthM: 40,
    })),
    sites: [{ id: 's', name: 'Site', depthM: 20 }],
    mixes: [{ id: 'm', o2: 0.32 }],
    dives: Array.from({ length: 10 }, (_, index) => ({
      id: `d${index + 1}`,
      siteId: 's',
      startsAt: `2027-03-${String(6 + Math.floor(index / 4)).padStart(2, '0')}T${String(7 + 3 * (index % 4)).padStart(2, '0')}:30`,
      depthM: 18,
      bottomMin: 35,
      mix: 'm',
    })),
    flight: { at: '2027-03-10T15:00' },
  };
}
