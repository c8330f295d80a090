/** The text of a file by what its bytes are: UTF-8, UTF-16, or the older one of the offices. */

/** What the machine decodes; null where the bytes are no text of that encoding. */
export type Decoder = (encoding: 'utf-8' | 'utf-16le', bytes: Uint8Array) => string | null;

/** What bytes 0x80 to 0x9F stand for; five stand for nothing. Source: Unicode, Mappings, CP1252.TXT. */
const WINDOWS_1252 =
  '\u20AC\u0081\u201A\u0192\u201E\u2026\u2020\u2021\u02C6\u2030\u0160\u2039\u0152\u008D\u017D\u008F' +
  '\u0090\u2018\u2019\u201C\u201D\u2022\u2013\u2014\u02DC\u2122\u0161\u203A\u0153\u009D\u017E\u0178';

const PIECE = 8192;

function windows1252(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let from = 0; from < bytes.length; from += PIECE) {
    const codes = Array.from(bytes.subarray(from, from + PIECE), (byte) =>
      byte >= 0x80 && byte < 0xa0 ? WINDOWS_1252.charCodeAt(byte - 0x80) : byte,
    );
    pieces.push(String.fromCharCode(...codes));
  }
  return pieces.join('');
}

function swapped(bytes: Uint8Array): Uint8Array {
  const made = new Uint8Array(bytes.length);
  for (let at = 0; at + 1 < bytes.length; at += 2) {
    made[at] = bytes[at + 1]!;
    made[at + 1] = bytes[at]!;
  }
  return made;
}

/** So much of a file tells whether every other byte is nothing, as Latin text is in UTF-16. */
const LOOKED_AT = 1000;

/** Which half of each pair is nothing, in text that stands two bytes a letter without saying so; null in other text. */
function emptyHalf(bytes: Uint8Array): 'first' | 'second' | null {
  const end = Math.min(bytes.length, LOOKED_AT) & ~1;
  let [first, second] = [0, 0];
  for (let at = 0; at < end; at += 2) {
    if (bytes[at] === 0) first += 1;
    if (bytes[at + 1] === 0) second += 1;
  }
  const most = end / 4;
  if (first > most && second === 0) return 'first';
  return second > most && first === 0 ? 'second' : null;
}

/**
 * The text of a file that people made: its mark tells the encoding, else what the bytes can be.
 * @param bytes the whole file @param decode what the machine has for it
 * @returns the text without its mark; null for bytes that are no text, as half a pair of UTF-16 or with nothing in them
 * Source: Unicode 15, section 23.8, byte order mark; CP1252.TXT. That what is no UTF-8 is Windows-1252 is common practice.
 */
export function decodeText(bytes: Uint8Array, decode: Decoder): string | null {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return decode('utf-8', bytes.subarray(3));
  if (a === 0xff && b === 0xfe) return decode('utf-16le', bytes.subarray(2));
  if (a === 0xfe && b === 0xff) {
    return bytes.length % 2 === 0 ? decode('utf-16le', swapped(bytes.subarray(2))) : null;
  }
  const empty = emptyHalf(bytes);
  if (empty === 'second') return decode('utf-16le', bytes);
  if (empty === 'first') return bytes.length % 2 === 0 ? decode('utf-16le', swapped(bytes)) : null;
  if (bytes.includes(0)) return null;
  return decode('utf-8', bytes) ?? windows1252(bytes);
}
