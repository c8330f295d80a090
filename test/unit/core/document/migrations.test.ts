import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  assertNoGaps,
  CURRENT_VERSION,
  migrated,
  MIGRATIONS,
  type Migration,
} from '../../../../core/document/migrations';
import { readTrip } from '../../../../core/document/read-trip';
import { fixtureText } from '../../../support/trip-documents';

const toTwo: Migration = { to: 2, name: '2-rename', up: ({ old, ...rest }) => ({ ...rest, renamed: old }) };
const toThree: Migration = {
  to: 3,
  name: '3-double',
  up: (doc) => ({ ...doc, twice: [doc['renamed'], doc['renamed']] }),
};

describe('migrated', () => {
  it('runs the steps above the version of the document, in order, and writes the version', () => {
    expect(migrated({ version: 1, old: 'x' }, 1, [toTwo, toThree])).toEqual({
      document: { version: 3, renamed: 'x', twice: ['x', 'x'] },
    });
    expect(migrated({ version: 2, renamed: 'y' }, 2, [toTwo, toThree])).toEqual({
      document: { version: 3, renamed: 'y', twice: ['y', 'y'] },
    });
  });

  it('leaves the document it was given as it was', () => {
    const document = Object.freeze({ version: 1, old: 'x' });
    migrated(document, 1, [toTwo]);
    expect(document).toEqual({ version: 1, old: 'x' });
  });

  it('names the step that failed', () => {
    const fails: Migration = {
      to: 2,
      name: '2-fails',
      up: () => {
        throw new Error('broken document');
      },
    };
    expect(migrated({ version: 1 }, 1, [fails, toThree])).toEqual({ failed: '2-fails' });
  });
});

describe('assertNoGaps', () => {
  it('accepts the list there is', () => {
    expect(() => assertNoGaps(MIGRATIONS, CURRENT_VERSION)).not.toThrow();
    expect(() => assertNoGaps([toTwo, toThree], 3)).not.toThrow();
  });

  it('stops at a step that lacks, is out of order, or is named after another version', () => {
    expect(() => assertNoGaps([toThree], 3)).toThrow(/needs 2 migrations, there are 1/);
    expect(() => assertNoGaps([toThree, toTwo], 3)).toThrow(/makes version 3 where 2 is due/);
    expect(() => assertNoGaps([{ ...toTwo, name: 'rename' }], 2)).toThrow(/not named after version 2/);
  });
});

describe('2-empty-records-out', () => {
  it('takes out the records that said nothing, and leaves those that said something', () => {
    const result = readTrip(fixtureText('v1-empty-records'));
    if (!result.ok) throw new Error(JSON.stringify(result.troubles));
    const [first, second] = result.value.dives;
    expect(first).not.toHaveProperty('asDived');
    expect(second!.asDived).toEqual([{ by: 'guest1', depthM: 17 }]);
  });

  it('leaves to the rules what is no record, no dive and no list', () => {
    for (const dives of [undefined, 7, [null], [{ asDived: 'x' }], [{ asDived: [3, null, [], 'x'] }]]) {
      const document = dives === undefined ? { version: 1 } : { version: 1, dives };
      expect(migrated(document, 1)).toEqual({ document: { ...document, version: CURRENT_VERSION } });
    }
  });
});

describe('frozen files', () => {
  const names = readdirSync(new URL('../../../fixtures/trips/', import.meta.url)).map((file) =>
    file.replace('.json', ''),
  );

  it('has one or more of every version there was', () => {
    for (let version = 1; version <= CURRENT_VERSION; version += 1) {
      expect(names.filter((name) => name.startsWith(`v${version}-`)).length).toBeGreaterThan(0);
    }
  });

  it.each(names)('reads %s', (name) => {
    const result = readTrip(fixtureText(name));
    expect(result.ok ? result.value.version : result.troubles).toBe(CURRENT_VERSION);
  });
});
