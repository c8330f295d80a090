/** A reader and their words, for the tables of the command `mixes`: sentences have one system of units, cells as many as the reader. */
import { shown, type Reader, type Words } from '../../core/words/reader';
import { said, type Figure, type Piece } from '../../core/words/said';

export interface Page {
  readonly reader: Reader;
  readonly words: Words;
  readonly currency: string | undefined;
  /** Of sentences. */
  readonly columns: number;
  readonly isColored: boolean;
}

export function cellsOf(pieces: readonly Piece[], { words }: Page): readonly string[] {
  return pieces.map((piece) => words(said`${piece}`));
}

/** The values of a figure alone, "1500/53" to who has both systems. */
export function values(of: Figure, { reader }: Page): string {
  return shown(of, reader)
    .map(({ value }) => value)
    .join('/');
}
