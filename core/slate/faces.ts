/**
 * The faces of all print-outs, those of the window: whole TrueType files, so that every letter of a name that they
 * have can be printed. Source: IBM Plex Sans Condensed, IBM Plex Sans and Source Serif 4, SIL Open Font License 1.1.
 */

/** Figures and our words are condensed, slanted where they are depths; names of people, sites and sheets have serifs. */
export const FACE_FILES = {
  text: 'ibm-plex-sans-condensed/400Regular/IBMPlexSansCondensed_400Regular.ttf',
  textSlant: 'ibm-plex-sans-condensed/400Regular_Italic/IBMPlexSansCondensed_400Regular_Italic.ttf',
  semi: 'ibm-plex-sans-condensed/600SemiBold/IBMPlexSansCondensed_600SemiBold.ttf',
  semiSlant: 'ibm-plex-sans-condensed/600SemiBold_Italic/IBMPlexSansCondensed_600SemiBold_Italic.ttf',
  bold: 'ibm-plex-sans-condensed/700Bold/IBMPlexSansCondensed_700Bold.ttf',
  boldSlant: 'ibm-plex-sans-condensed/700Bold_Italic/IBMPlexSansCondensed_700Bold_Italic.ttf',
  name: 'source-serif-4/600SemiBold/SourceSerif4_600SemiBold.ttf',
  wide: 'ibm-plex-sans/400Regular/IBMPlexSans_400Regular.ttf',
  wideBold: 'ibm-plex-sans/700Bold/IBMPlexSans_700Bold.ttf',
} as const;

export type FaceName = keyof typeof FACE_FILES;

export const FACE_NAMES = Object.keys(FACE_FILES) as readonly FaceName[];

/** Of a condensed face, how it is set where a depth stands in it, and where something in it is stressed. */
export const SLANTED: Readonly<Record<FaceName, FaceName>> = {
  text: 'textSlant',
  textSlant: 'textSlant',
  semi: 'semiSlant',
  semiSlant: 'semiSlant',
  bold: 'boldSlant',
  boldSlant: 'boldSlant',
  name: 'name',
  wide: 'wide',
  wideBold: 'wideBold',
};

export const STRESSED: Readonly<Record<FaceName, FaceName>> = {
  text: 'bold',
  textSlant: 'boldSlant',
  semi: 'bold',
  semiSlant: 'boldSlant',
  bold: 'bold',
  boldSlant: 'boldSlant',
  name: 'name',
  wide: 'wideBold',
  wideBold: 'wideBold',
};

/**
 * The condensed faces have neither Greek nor Cyrillic: a text with a letter that they lack is set whole in the wide
 * ones, and a name with a letter that the serif face lacks too.
 */
export const STAND_INS: Readonly<Record<FaceName, FaceName>> = {
  text: 'wide',
  textSlant: 'wide',
  semi: 'wideBold',
  semiSlant: 'wideBold',
  bold: 'wideBold',
  boldSlant: 'wideBold',
  name: 'wideBold',
  wide: 'name',
  wideBold: 'name',
};
