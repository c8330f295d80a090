import type { HostResult } from '../../core/host';
import { machine } from '../store/machine';
import { say } from '../store/notice';

export interface Document {
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly mediaType: string;
  /** What is in it, for who has just saved it: "24 pages", "22 dives". */
  readonly contents: string;
  /** What else there is to know of it. */
  readonly remarks?: readonly string[];
}

/** Saves a document where the user says, and says what was saved; says nothing where they think better of it. */
export async function saveDocument(document: Document): Promise<void> {
  const { bytes, name, mediaType, contents, remarks = [] } = document;
  const result: HostResult<string | null> = await machine().saveDocument(bytes, name, mediaType);
  if (!result.ok) {
    say({ tone: 'refused', lines: [result.trouble] });
    return;
  }
  if (result.value === null) return;
  const lines = [`Saved “${result.value}”: ${contents}.`, ...remarks];
  say({
    tone: 'said',
    lines: lines.map((what) => ({ what, where: '', mend: '' })),
    ...(machine().supports.showSaved ? { canShow: true } : {}),
  });
}

/** Shows what was saved last in the system's file manager. */
export async function showSaved(): Promise<void> {
  const result = await machine().showSaved();
  if (!result.ok) say({ tone: 'refused', lines: [result.trouble] });
}
