import { crc32, utf8 } from '../bytes';

/** A file in an archive. */
export interface ZipEntry {
  /** Without folders; letters outside ASCII are allowed. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

const LOCAL_HEADER = 0x04034b50;
const CENTRAL_HEADER = 0x02014b50;
const END_OF_CENTRAL = 0x06054b50;

/** Version 2.0 is needed to read it; bit 11 says that names are UTF-8. Source: APPNOTE 6.3.10, 4.4.3 and 4.4.4. */
const VERSION_NEEDED = 20;
const UTF8_NAMES = 0x0800;

const LOCAL_SIZE = 30;
const CENTRAL_SIZE = 46;
const END_SIZE = 22;

/** @param date "2027-03-05" @returns the day as MS-DOS counts it. Source: APPNOTE 6.3.10, 4.4.6. */
function dosDate(date: string): number {
  const [year, month, day] = date.split('-').map(Number);
  return ((year! - 1980) << 9) | (month! << 5) | day!;
}

/**
 * An archive of files as they are, without compression: what goes in (PDF) is compressed already.
 * @param entries at most 65 535, together under 4 GB, every name once @param date "2027-03-05", of every file
 * @returns the bytes of a ZIP file, the same for the same input
 * Source: PKWARE, APPNOTE.TXT .ZIP File Format Specification 6.3.10 (2022), 4.3 and 4.4.
 */
export function zipOf(entries: readonly ZipEntry[], date: string): Uint8Array {
  const files = entries.map(({ name, bytes }) => ({ name: utf8(name), bytes, crc: crc32(bytes) }));
  const localSize = files.reduce((sum, { name, bytes }) => sum + LOCAL_SIZE + name.length + bytes.length, 0);
  const centralSize = files.reduce((sum, { name }) => sum + CENTRAL_SIZE + name.length, 0);
  const out = new Uint8Array(localSize + centralSize + END_SIZE);
  const view = new DataView(out.buffer);

  /** From "version needed" to "extra field length": the same in both headers. */
  const shared = (at: number, file: (typeof files)[number]): void => {
    view.setUint16(at, VERSION_NEEDED, true);
    view.setUint16(at + 2, UTF8_NAMES, true);
    view.setUint16(at + 8, dosDate(date), true);
    view.setUint32(at + 10, file.crc, true);
    view.setUint32(at + 14, file.bytes.length, true);
    view.setUint32(at + 18, file.bytes.length, true);
    view.setUint16(at + 22, file.name.length, true);
  };

  let at = 0;
  let central = localSize;
  for (const file of files) {
    view.setUint32(central, CENTRAL_HEADER, true);
    view.setUint16(central + 4, VERSION_NEEDED, true);
    shared(central + 6, file);
    view.setUint32(central + 42, at, true);
    out.set(file.name, central + CENTRAL_SIZE);
    central += CENTRAL_SIZE + file.name.length;

    view.setUint32(at, LOCAL_HEADER, true);
    shared(at + 4, file);
    out.set(file.name, at + LOCAL_SIZE);
    out.set(file.bytes, at + LOCAL_SIZE + file.name.length);
    at += LOCAL_SIZE + file.name.length + file.bytes.length;
  }
  view.setUint32(central, END_OF_CENTRAL, true);
  view.setUint16(central + 8, files.length, true);
  view.setUint16(central + 10, files.length, true);
  view.setUint32(central + 12, centralSize, true);
  view.setUint32(central + 16, localSize, true);
  return out;
}
