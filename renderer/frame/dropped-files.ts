/** Files that are let go over the window: a trip is opened, recorded dives and lists of sites come into their sheets. */
import type { Host } from '../../core/host';
import { TRIP_EXTENSION } from '../../core/library';
import { openDropped } from '../actions/files';
import { showOverlay } from '../actions/view';
import { isUnderSheet } from '../commands/registry';
import { importTrouble, readImport } from '../actions/read-import';
import { startReading } from '../places/days/recorded/recorded-view';
import { listOf } from '../places/sites/site-list';
import { chooseSitesView } from '../places/sites/sites-view';
import { say } from '../store/notice';
import { desk } from '../store/store';

const TRIP_ENDINGS = [`.${TRIP_EXTENSION}`, '.json'];

function refuse(what: string, where: string, mend: string): void {
  say({ tone: 'refused', lines: [{ what, where, mend }] });
}

async function take(host: Host, files: readonly File[]): Promise<void> {
  const [file] = files;
  if (file === undefined) return;
  if (files.length > 1) return refuse('Several files were dropped.', '', 'Drop one at a time.');
  if (isUnderSheet(desk.getState())) {
    return refuse(
      'A sheet is open, so nothing was done with the file.',
      file.name,
      'Close it, then drop the file again.',
    );
  }
  const picked = await readImport(file);
  if (picked.kind !== 'text') {
    return say({ tone: 'refused', lines: [importTrouble(picked)] });
  }
  const { name, text } = picked;
  if (TRIP_ENDINGS.some((ending) => name.toLowerCase().endsWith(ending)))
    return openDropped(() => host.openDropped(file, text));
  if (/<(?:\w+:)?uddf[\s>]/.test(text.slice(0, 5000))) {
    if (desk.getState().trip.dives.length === 0) {
      return refuse(
        'There is no dive that a recorded one could be.',
        name,
        'Plan the dives first, then drop the file again.',
      );
    }
    showOverlay({ kind: 'recorded' });
    return startReading(name, text);
  }
  chooseSitesView({ list: listOf(text) });
  return showOverlay({ kind: 'site-list' });
}

function bringsFiles({ dataTransfer }: DragEvent): boolean {
  return dataTransfer?.types.includes('Files') ?? false;
}

export function listenForDroppedFiles(host: Host): void {
  // Without this the page would go to the file.
  document.addEventListener('dragover', (event) => {
    if (!bringsFiles(event)) return;
    event.preventDefault();
    event.dataTransfer!.dropEffect = 'copy';
  });
  document.addEventListener('drop', (event) => {
    if (!bringsFiles(event)) return;
    event.preventDefault();
    void take(host, [...event.dataTransfer!.files]);
  });
}
