import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DiskTrouble } from '../../../electron/disk/disk-trouble';
import { unsavedEdits } from '../../../electron/unsaved-edits';
import { failingAt } from '../../faults/failing-disk';

const token = `library-${'a'.repeat(32)}`;

function note(title: string): { text: string; savedAt: string | null } {
  return {
    text: JSON.stringify({ format: 'carryover/trip', version: 1, title }),
    savedAt: '2027-03-01T08:00:00.000Z',
  };
}

let folder: string;
const file = (): string => join(folder, 'unsaved', `${token}.txt`);

beforeEach(async () => {
  folder = await fs.mkdtemp(join(tmpdir(), 'carryover-unsaved-'));
});
afterEach(() => fs.rm(folder, { recursive: true, force: true }));

describe('unsavedEdits', () => {
  it('outlast the process that noted them', async () => {
    await unsavedEdits(folder).keep(token, note('Edited'));
    expect(await unsavedEdits(folder).read(token)).toEqual(note('Edited'));
  });

  it('leave the note before, or the new one, wherever a step of noting fails', async () => {
    let failures = 0;
    for (let step = 1; ; step += 1) {
      await unsavedEdits(folder).keep(token, note('Old'));
      const { system, hasFailed } = failingAt(step, 'ENOSPC');
      const outcome = await unsavedEdits(folder, system)
        .keep(token, note('New'))
        .catch((error: unknown) => error);
      const read = await unsavedEdits(folder).read(token);
      if (!hasFailed()) break;
      failures += 1;
      expect((outcome as DiskTrouble).trouble.kind).toBe('full');
      expect([note('Old'), note('New')]).toContainEqual(read);
    }
    expect(failures).toBeGreaterThanOrEqual(4);
    expect(await unsavedEdits(folder).read(token)).toEqual(note('New'));
  });

  it('keep every damaged note beside those before', async () => {
    const kept: string[] = [];
    for (const left of ['one', 'two', 'three']) {
      await unsavedEdits(folder).keep(token, note('Edited'));
      await fs.writeFile(file(), left);
      const outcome = await unsavedEdits(folder)
        .read(token)
        .catch((error: unknown) => error);
      kept.push((outcome as DiskTrouble).trouble.where);
    }
    expect(await Promise.all(kept.map((path) => fs.readFile(path, 'utf8')))).toEqual(['one', 'two', 'three']);
    expect(await fs.readdir(join(folder, 'unsaved'))).toHaveLength(3);
  });

  it('tell a note that a loss of power left half, whatever is left of it', async () => {
    await unsavedEdits(folder).keep(token, note('Edited'));
    const whole = await fs.readFile(file());
    const pieces: Uint8Array[] = [
      Buffer.alloc(0),
      Buffer.alloc(whole.length),
      Buffer.from('null\n'),
      Buffer.from([0xff, 0x0a]),
    ];
    for (let length = 1; length < whole.length; length += 1) pieces.push(whole.subarray(0, length));
    for (const piece of pieces) {
      await fs.writeFile(file(), piece);
      const outcome = await unsavedEdits(folder)
        .read(token)
        .catch((error: unknown) => error);
      expect(outcome).toBeInstanceOf(DiskTrouble);
      expect((outcome as DiskTrouble).trouble.kind).toBe('not-readable');
      // Once; what is left of it lies where it was told.
      if (!piece.includes(0xff)) {
        expect(await fs.readFile((outcome as DiskTrouble).trouble.where)).toEqual(Buffer.from(piece));
        expect(await unsavedEdits(folder).read(token)).toBeNull();
      }
      // The next edits are noted all the same.
      await unsavedEdits(folder).keep(token, note('Next'));
      expect(await unsavedEdits(folder).read(token)).toEqual(note('Next'));
    }
  });
});
