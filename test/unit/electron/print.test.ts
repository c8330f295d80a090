import { describe, expect, it } from 'vitest';
import { PAPERS } from '../../../core/slate/paper';
import { readArguments } from '../../../electron/call-schemas';
import { DiskTrouble } from '../../../electron/disk/disk-trouble';
import { printOptions, printPages, printTrouble } from '../../../electron/print';

type Answer = (isPrinted: boolean, reason: string) => void;

const A6 = { widthMm: 105, heightMm: 148 };

function printing(answer: (done: Answer) => void): Promise<void> {
  return printPages({ print: (_options, done) => answer(done!) }, A6);
}

describe('printOptions', () => {
  it('asks in the dialog, without margins of its own, on a paper in microns', () => {
    expect(printOptions(A6)).toEqual({
      silent: false,
      printBackground: true,
      margins: { marginType: 'none' },
      pageSize: { width: 105_000, height: 148_000 },
    });
    expect(printOptions({ widthMm: 215.9, heightMm: 279.4 }).pageSize).toEqual({
      width: 215_900,
      height: 279_400,
    });
  });
});

describe('printPages', () => {
  it('is done once the pages are printed, and also where the dialog is closed without', async () => {
    await expect(printing((done) => done(true, ''))).resolves.toBeUndefined();
    await expect(printing((done) => done(false, 'Print job canceled'))).resolves.toBeUndefined();
  });

  it.each(['Print job failed', 'Invalid printer settings', ''])('tells a trouble of "%s"', async (reason) => {
    const error = await printing((done) => done(false, reason)).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(DiskTrouble);
    expect((error as DiskTrouble).trouble).toEqual(printTrouble(reason));
    expect(printTrouble(reason)).toMatchObject({ kind: 'refused', where: 'the system’s print dialog' });
    expect(printTrouble(reason)?.what).toBe(
      reason === '' ? 'The pages were not printed.' : `The pages were not printed: ${reason}.`,
    );
  });

  it('tells a trouble of a size that is refused before any dialog opens', async () => {
    const error = await printing(() => {
      throw new Error('Unsupported pageSize.');
    }).catch((thrown: unknown) => thrown);
    expect((error as DiskTrouble).trouble.what).toBe('The pages were not printed: Unsupported pageSize.');
  });
});

describe('the arguments of printPages', () => {
  it('are any paper that slates are made for, and nothing else', () => {
    for (const { widthMm, heightMm } of PAPERS) {
      expect(readArguments('printPages', [{ widthMm, heightMm }]).ok).toBe(true);
    }
    for (const given of [
      [],
      ['A4'],
      [{ widthMm: 105 }],
      [{ widthMm: 0.3, heightMm: 148 }],
      [{ widthMm: 105, heightMm: 1e9 }],
      [{ widthMm: Number.NaN, heightMm: 148 }],
      [{ widthMm: 105, heightMm: 148, silent: true }],
      [{ widthMm: 105, heightMm: 148 }, 'extra'],
    ]) {
      expect(readArguments('printPages', given).ok, JSON.stringify(given)).toBe(false);
    }
  });
});
