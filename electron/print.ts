/** Printing the pages that the window holds ready: what the runtime is told, and what its answers mean. */
import type { WebContents, WebContentsPrintOptions } from 'electron';
import type { HostTrouble, PrintPaper } from '../core/host';
import { DiskTrouble } from './disk/disk-trouble';

const MICRONS_PER_MM = 1000;

/**
 * Asks in the system's dialog; the pages bring their own margins, and each is as large as the paper.
 * The runtime wants sizes in microns.
 */
export function printOptions(paper: PrintPaper): WebContentsPrintOptions {
  return {
    silent: false,
    printBackground: true,
    margins: { marginType: 'none' },
    pageSize: {
      width: Math.round(paper.widthMm * MICRONS_PER_MM),
      height: Math.round(paper.heightMm * MICRONS_PER_MM),
    },
  };
}

/** The runtime's reason where the user thinks better of it; Electron's documentation of webContents.print. */
const CANCELLED = /^Print job cancell?ed$/i;

/** What a reason that the runtime gives means for the user; null where they closed the dialog themselves. */
export function printTrouble(reason: string): HostTrouble | null {
  if (CANCELLED.test(reason.trim())) return null;
  return {
    kind: 'refused',
    what: `The pages were not printed${reason === '' ? '' : `: ${reason.replace(/\.$/, '')}`}.`,
    where: 'the system’s print dialog',
    mend: 'See that a printer is set up, switched on and takes this paper, then print again; or save the PDF and print it from elsewhere.',
  };
}

/** Opens the system's print dialog; resolves once it is done with, and throws the trouble where that failed. */
export function printPages(contents: Pick<WebContents, 'print'>, paper: PrintPaper): Promise<void> {
  return new Promise((resolve, reject) => {
    const failed = (reason: string): void => {
      const trouble = printTrouble(reason);
      if (trouble === null) resolve();
      else reject(new DiskTrouble(trouble));
    };
    try {
      contents.print(printOptions(paper), (isPrinted, reason) => (isPrinted ? resolve() : failed(reason)));
    } catch (error) {
      // A size that the system's printers refuse is thrown, not called back.
      failed(error instanceof Error ? error.message : String(error));
    }
  });
}
