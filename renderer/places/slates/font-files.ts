import boldUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf?url';
import regularUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf?url';
import { readFont } from '../../../core/slate/font';
import type { FontBytes } from './slate-job';

async function read(url: string): Promise<Uint8Array> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`the font ${url} did not come (${response.status})`);
  return new Uint8Array(await response.arrayBuffer());
}

/** The fonts of all print-outs, from the bundle. */
export async function fontBytes(): Promise<FontBytes> {
  const [regular, bold] = await Promise.all([read(regularUrl), read(boldUrl)]);
  return { regular, bold };
}

/** Names under which the pictures of pages find the fonts. */
export const PICTURE_FONTS = { regular: 'Slate Regular', bold: 'Slate Bold' } as const;

let registered: Promise<void> | null = null;

/**
 * Makes the fonts of the print-outs known to this document, from the very bytes that a PDF embeds: without
 * kerning and ligatures, so that each word is as wide in the picture as on paper.
 */
export function registerPictureFonts(): Promise<void> {
  registered ??= fontBytes().then(async (bytes) => {
    const faces = (['regular', 'bold'] as const).map(
      (name) => new FontFace(PICTURE_FONTS[name], new Uint8Array(readFont(bytes[name]).bytes)),
    );
    for (const face of faces) document.fonts.add(await face.load());
  });
  return registered;
}
