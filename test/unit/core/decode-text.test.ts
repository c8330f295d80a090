import { describe, expect, it } from 'vitest';
import { decodeText, type Decoder } from '../../../core/decode-text';

const decode: Decoder = (encoding, bytes) => {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
};

function read(...bytes: readonly number[]): string | null {
  return decodeText(Uint8Array.from(bytes), decode);
}

/** Text as a spreadsheet saves it in UTF-16. */
function utf16(text: string, isBig: boolean): readonly number[] {
  return [...text].flatMap((letter) => {
    const code = letter.charCodeAt(0);
    return isBig ? [code >> 8, code & 255] : [code & 255, code >> 8];
  });
}

describe('decodeText', () => {
  it('takes UTF-8 for what it is, with its mark and without', () => {
    const bytes = new TextEncoder().encode('Récif 5 €');
    expect(read(...bytes)).toBe('Récif 5 €');
    expect(read(0xef, 0xbb, 0xbf, ...bytes)).toBe('Récif 5 €');
    expect(read()).toBe('');
  });

  it('takes UTF-16 of either order, with its mark and without', () => {
    for (const isBig of [false, true]) {
      expect(read(...utf16('\uFEFFRécif; 5', isBig))).toBe('Récif; 5');
      expect(read(...utf16('time;depth', isBig))).toBe('time;depth');
    }
  });

  it('takes what is no UTF-8 for Windows-1252, its upper controls as signs', () => {
    expect(read(0x52, 0xe9, 0x63, 0x69, 0x66, 0x20, 0x80, 0x92, 0x96, 0x9f)).toBe('Récif €’–Ÿ');
  });

  it('gives no text for what is none', () => {
    expect(read(0xff, 0xfe, 0x41)).toBeNull();
    expect(read(0xfe, 0xff, 0x00)).toBeNull();
    expect(read(0x50, 0x4b, 0x03, 0x04, 0x00, 0x14, 0x00, 0x00, 0x01)).toBeNull();
  });
});
