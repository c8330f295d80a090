import { crc32 } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { zipOf } from '../../../../core/formats/zip';

const text = (words: string) => new TextEncoder().encode(words);

/** Reads an archive from its end, as the specification tells a reader to. */
function unzipped(zip: Uint8Array): readonly { name: string; bytes: Uint8Array; date: number }[] {
  const view = new DataView(zip.buffer);
  const end = zip.length - 22;
  expect(view.getUint32(end, true)).toBe(0x06054b50);
  let at = view.getUint32(end + 16, true);
  expect(at + view.getUint32(end + 12, true)).toBe(end);
  return Array.from({ length: view.getUint16(end + 10, true) }, () => {
    expect(view.getUint32(at, true)).toBe(0x02014b50);
    expect(view.getUint16(at + 8, true) & 0x0800).toBe(0x0800);
    expect(view.getUint16(at + 10, true)).toBe(0);
    const [date, crc, stored, size, nameSize, local] = [
      view.getUint16(at + 14, true),
      view.getUint32(at + 16, true),
      view.getUint32(at + 20, true),
      view.getUint32(at + 24, true),
      view.getUint16(at + 28, true),
      view.getUint32(at + 42, true),
    ];
    const name = new TextDecoder().decode(zip.subarray(at + 46, at + 46 + nameSize));
    expect(stored).toBe(size);
    expect(view.getUint32(local, true)).toBe(0x04034b50);
    // From the version needed to the length of the name both headers say the same.
    expect(zip.slice(local + 4, local + 30)).toEqual(zip.slice(at + 6, at + 32));
    const start = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    const bytes = zip.slice(start, start + size);
    expect(crc32(bytes)).toBe(crc);
    at += 46 + nameSize;
    return { name, bytes, date };
  });
}

describe('zipOf', () => {
  it('gives every file back by its name, with the checksum of another implementation', () => {
    const files = [
      { name: 'one.pdf', bytes: text('one') },
      { name: 'Жанна Ångström 海.pdf', bytes: Uint8Array.from({ length: 70_000 }, (_, i) => (i * 7) % 256) },
      { name: 'empty.pdf', bytes: new Uint8Array(0) },
    ];
    const read = unzipped(zipOf(files, '2027-03-05'));
    expect(read.map(({ name, bytes }) => ({ name, bytes }))).toEqual(files);
    // 2027 is 47 years after 1980: 47 * 512 + 3 * 32 + 5.
    expect(read[0]!.date).toBe(24_165);
  });

  it('makes an archive of nothing', () => {
    expect(unzipped(zipOf([], '2027-03-05'))).toEqual([]);
  });

  it('makes the same bytes twice', () => {
    const files = [{ name: 'one.pdf', bytes: text('one') }];
    expect(zipOf(files, '2027-03-05')).toEqual(zipOf(files, '2027-03-05'));
  });
});
