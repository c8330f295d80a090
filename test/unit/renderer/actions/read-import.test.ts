/** Files of other programs that are no text: said as what they are, in the window of a browser and on the desktop. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import * as nodeFs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { zipOf } from '../../../../core/formats/zip';
import type { HostTrouble } from '../../../../core/host';
import { readImport as readOnDesktop } from '../../../../electron/disk/disk';
import { DiskTrouble } from '../../../../electron/disk/disk-trouble';
import { importTrouble, readImport } from '../../../../renderer/actions/read-import';

const KML = new TextEncoder().encode('<kml><Placemark/></kml>');

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'import-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What is said of a file, by the browser and by the desktop. */
async function saidOf(bytes: Uint8Array<ArrayBuffer>, name: string): Promise<readonly HostTrouble[]> {
  const picked = await readImport(new File([bytes], name));
  if (picked.kind === 'text') throw new Error(`read as "${picked.text}"`);
  const path = join(folder, name);
  writeFileSync(path, bytes);
  const onDesktop = await readOnDesktop(nodeFs, path).catch((error: unknown) => error);
  if (!(onDesktop instanceof DiskTrouble)) throw new Error(`read as "${String(onDesktop)}"`);
  return [importTrouble(picked), { ...onDesktop.trouble, where: name }];
}

describe('a file of another program', () => {
  it.each([
    ['places.kmz', zipOf([{ name: 'doc.kml', bytes: KML }], '2027-03-05')],
    ['log.uddf.gz', gzipSync(KML)],
  ])('that is packed is told so, with what to do: %s', async (name, bytes) => {
    for (const trouble of await saidOf(new Uint8Array(bytes), name)) {
      expect(trouble).toEqual({
        kind: 'not-readable',
        what: 'The file is packed: an archive (ZIP), places as KMZ or a workbook. What is in it is not read.',
        where: name,
        mend: 'Unpack it and choose the file inside; save places as KML, a workbook as CSV.',
      });
    }
  });

  it('that is no text at all is told so', async () => {
    const picture = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0x0d);
    for (const { what } of await saidOf(picture, 'reef.png')) expect(what).toMatch(/^The file is no text: /);
  });
});
