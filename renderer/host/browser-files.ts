/** Files as far as a browser reaches them: picked by the user, or handed over as a download. */
import { MAX_TRIP_BYTES } from '../../core/library';
import type { PickedText } from '../actions/read-import';

/**
 * Lets the user choose a text file; null when they think better of it.
 * @param isImport made by other programs: of any size and encoding that they may have
 */
export async function pickText(accept: string, isImport = false): Promise<PickedText | null> {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = accept;
  input.hidden = true;
  // In the document, so that every browser delivers its events and a test can find it.
  document.body.append(input);
  const file = await new Promise<File | null>((resolve) => {
    input.addEventListener('change', () => resolve(input.files?.[0] ?? null));
    input.addEventListener('cancel', () => resolve(null));
    input.click();
  });
  input.remove();
  if (file === null) return null;
  // Which encodings other programs have is a module of its own, and no part of the start.
  if (isImport) return (await import('../actions/read-import')).readImport(file);
  if (file.size > MAX_TRIP_BYTES) return { kind: 'too-large', name: file.name, bytes: file.size };
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
    return { kind: 'text', name: file.name, text };
  } catch {
    return { kind: 'unreadable', name: file.name };
  }
}

/** Hands bytes to the browser's download under a name. */
export function download(bytes: Uint8Array | string, name: string, mediaType: string): void {
  const url = blobUrl(bytes, mediaType);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
}

/** Opens a page of the web without letting it know this one. */
export function openPage(url: string): void {
  window.open(url, '_blank', 'noopener,noreferrer');
}

function blobUrl(bytes: Uint8Array | string, mediaType: string): string {
  // A copy of the very bytes: a view may lie in a larger, or a shared, buffer.
  const part = typeof bytes === 'string' ? bytes : new Uint8Array(bytes);
  const url = URL.createObjectURL(new Blob([part], { type: mediaType }));
  // Long enough for the slowest disk to take the download over.
  setTimeout(() => URL.revokeObjectURL(url), 120_000);
  return url;
}
