import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { assert, type Result } from '../../core/result';
import { FACE_FILES, FACE_NAMES, type FaceName } from '../../core/slate/faces';
import { fontFile } from './font-files';
import { readFont, type SlateFonts } from '../../core/slate/font';
import { slatePdf, type SlatePdf } from '../../core/slate/pdf';
import { readSlateOptions, type SlateOptions } from '../../core/slate/options';
import { doneDates } from '../../core/slate/next-day';
import { cautionsOf } from '../../core/cautions/all';
import type { Trip } from '../../core/document/types';
import type { Ledger } from '../../core/ledger/ledger-types';

/** The fonts of all print-outs: beside the bundle where this is one, else in the packages that ship them. */
export function slateFonts(): SlateFonts {
  const require = createRequire(import.meta.url);
  const bytesOf = (name: FaceName): Uint8Array => {
    const beside = new URL(fontFile(name), import.meta.url);
    return readFileSync(
      existsSync(beside) ? beside : require.resolve(`@expo-google-fonts/${FACE_FILES[name]}`),
    );
  };
  const read = (name: FaceName) => readFont(bytesOf(name));
  return Object.fromEntries(FACE_NAMES.map((name) => [name, read(name)])) as SlateFonts;
}

/**
 * Slates as the command makes them, page for page those of the window.
 * @param options as typed; what is null takes the usual value
 * @param printedOn "2027-03-05" @param since the trip as it was before; null: nothing is compared @returns the PDF, or every trouble with the options
 */
export async function slateFromOptions(
  options: SlateOptions,
  ledger: Ledger,
  printedOn: string,
  since: Trip | null = null,
): Promise<Result<SlatePdf>> {
  const read = readSlateOptions(options);
  if (!read.ok) return read;
  const cautions = cautionsOf(ledger);
  const made = await slatePdf({
    ...read.value,
    ledger,
    cautions,
    fonts: slateFonts(),
    printedOn,
    doneDates: doneDates(ledger.trip, null),
    since: since && { trip: since, at: null },
  });
  if (!made.ok) return made;
  assert(made.value !== null, 'slates stopped though nobody asked');
  return { ok: true, value: made.value };
}
