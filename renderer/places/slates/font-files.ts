import text from '@expo-google-fonts/ibm-plex-sans-condensed/400Regular/IBMPlexSansCondensed_400Regular.ttf?url';
import textSlant from '@expo-google-fonts/ibm-plex-sans-condensed/400Regular_Italic/IBMPlexSansCondensed_400Regular_Italic.ttf?url';
import semi from '@expo-google-fonts/ibm-plex-sans-condensed/600SemiBold/IBMPlexSansCondensed_600SemiBold.ttf?url';
import semiSlant from '@expo-google-fonts/ibm-plex-sans-condensed/600SemiBold_Italic/IBMPlexSansCondensed_600SemiBold_Italic.ttf?url';
import bold from '@expo-google-fonts/ibm-plex-sans-condensed/700Bold/IBMPlexSansCondensed_700Bold.ttf?url';
import boldSlant from '@expo-google-fonts/ibm-plex-sans-condensed/700Bold_Italic/IBMPlexSansCondensed_700Bold_Italic.ttf?url';
import name from '@expo-google-fonts/source-serif-4/600SemiBold/SourceSerif4_600SemiBold.ttf?url';
import wide from '@expo-google-fonts/ibm-plex-sans/400Regular/IBMPlexSans_400Regular.ttf?url';
import wideBold from '@expo-google-fonts/ibm-plex-sans/700Bold/IBMPlexSans_700Bold.ttf?url';
import { FACE_NAMES, type FaceName } from '../../../core/slate/faces';
import { readFont } from '../../../core/slate/font';
import type { FontBytes } from './slate-job';

const URLS: Readonly<Record<FaceName, string>> = {
  text,
  textSlant,
  semi,
  semiSlant,
  bold,
  boldSlant,
  name,
  wide,
  wideBold,
};

async function read(url: string): Promise<Uint8Array> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`the font ${url} did not come (${response.status})`);
  return new Uint8Array(await response.arrayBuffer());
}

/** The fonts of all print-outs, from the bundle. */
export async function fontBytes(): Promise<FontBytes> {
  const faces = FACE_NAMES.map(async (face) => [face, await read(URLS[face])] as const);
  return Object.fromEntries(await Promise.all(faces)) as unknown as FontBytes;
}

/** Name under which the pictures of pages find a face. */
export function pictureFont(face: FaceName): string {
  return `Slate ${face}`;
}

let registered: Promise<void> | null = null;

/**
 * Makes the fonts of the print-outs known to this document, from the very bytes that a PDF embeds: without
 * kerning and ligatures, so that each word is as wide in the picture as on paper.
 */
export function registerPictureFonts(): Promise<void> {
  registered ??= fontBytes().then(async (bytes) => {
    const faces = FACE_NAMES.map(
      (face) => new FontFace(pictureFont(face), new Uint8Array(readFont(bytes[face]).bytes)),
    );
    const loaded = await Promise.all(faces.map((face) => face.load()));
    for (const face of loaded) document.fonts.add(face);
  });
  return registered;
}
