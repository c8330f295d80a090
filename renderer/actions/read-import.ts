/** Files of other programs as the window has them, loaded when one is chosen or dropped. */
import { decodeText, type Decoder } from '../../core/decode-text';
import type { HostTrouble } from '../../core/host';
import { importTooLargeTrouble, MAX_IMPORT_BYTES, noTextTrouble } from '../../core/imported';

export type PickedText =
  | { readonly kind: 'text'; readonly name: string; readonly text: string }
  | { readonly kind: 'too-large'; readonly name: string; readonly bytes: number }
  | {
      readonly kind: 'unreadable';
      readonly name: string;
      /** How it begins, where that could be read. */
      readonly bytes?: Uint8Array;
    };

const decode: Decoder = (encoding, bytes) => {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
};

/** The text of a file, whatever its encoding. */
export async function readImport(file: File): Promise<PickedText> {
  const { name, size } = file;
  if (size > MAX_IMPORT_BYTES) return { kind: 'too-large', name, bytes: size };
  try {
    const bytes = new Uint8Array(await file.arrayBuffer());
    const text = decodeText(bytes, decode);
    return text === null ? { kind: 'unreadable', name, bytes } : { kind: 'text', name, text };
  } catch {
    return { kind: 'unreadable', name };
  }
}

/** What is said of a file that was not read. */
export function importTrouble(picked: Exclude<PickedText, { readonly kind: 'text' }>): HostTrouble {
  return picked.kind === 'too-large'
    ? importTooLargeTrouble(picked.name, picked.bytes)
    : noTextTrouble(picked.name, picked.bytes ?? new Uint8Array());
}
