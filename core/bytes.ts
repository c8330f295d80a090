/**
 * CRC-32 with the reflected polynomial 0xEDB88320.
 * Source: PKWARE, APPNOTE.TXT .ZIP File Format Specification 6.3.10 (2022), 4.4.7.
 */
const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value >>> 0;
});

/** CRC-32 as archives have it. @returns 32 bit, without sign. Source: as `CRC_TABLE`. */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = CRC_TABLE[(crc ^ byte) & 0xff]! ^ (crc >>> 8);
  return (crc ^ 0xffffffff) >>> 0;
}

/** UTF-8 of a text. Source: RFC 3629. */
export function utf8(text: string): Uint8Array {
  const escaped = encodeURIComponent(text.replaceAll(/\p{Surrogate}/gu, '\ufffd'));
  const bytes: number[] = [];
  for (let i = 0; i < escaped.length; i += 1) {
    if (escaped[i] === '%') {
      bytes.push(Number.parseInt(escaped.slice(i + 1, i + 3), 16));
      i += 2;
    } else bytes.push(escaped.charCodeAt(i));
  }
  return Uint8Array.from(bytes);
}
