import { describe, expect, it } from 'vitest';
import { assert } from '../../../../core/result';
import { pdfStructure, pdfTroubles } from '../../../support/pdf/qpdf';
import { readPdf } from '../../../support/pdf/read-pdf';
import { textsOf, FONTS, aPaper, aRequest, layoutOf, readersCut } from '../../../support/slates';
import { setterOf } from '../../../../core/slate/layout';
import { slatePdf, writePdf } from '../../../../core/slate/pdf';
import { slatePages } from '../../../../core/slate/pages';
import type { SlateRequest } from '../../../../core/slate/request';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

const trip = aTrip([aDive({ id: 'one' }), aDive({ id: 'two', startsAt: '2027-03-07T08:00' })], {
  title: 'Łódka at Ωmega Reef',
  party: [aDiver(), aDiver({ id: 'guest-2', name: 'Жанна' })],
});

/** Places are written in thousandths of a point, and read back as 32-bit floats. */
const PLACE_PT = 0.01;
async function bytesOf(change: Partial<SlateRequest> = {}): Promise<Uint8Array> {
  const made = await slatePdf(aRequest(trip, change));
  assert(made.ok && made.value !== null, 'no PDF');
  return made.value.bytes;
}

describe('slatePdf', () => {
  it('makes the same bytes twice', async () => {
    expect(Buffer.from(await bytesOf()).equals(Buffer.from(await bytesOf()))).toBe(true);
  });

  it('is sound for every kind, by an independent check', async () => {
    for (const kind of ['card', 'briefing', 'trip', 'tags'] as const) {
      expect(await pdfTroubles(await bytesOf({ kind, paper: aPaper('A4') }))).toBe('');
    }
    // The check tells: not of a file cut short, nor of one with a letter of its structure changed.
    const bytes = await bytesOf();
    expect(await pdfTroubles(bytes.subarray(0, bytes.length - 100))).toContain('ended with');
    const broken = Buffer.from(bytes);
    broken.write('<<]]', broken.indexOf('/MediaBox'));
    expect(await pdfTroubles(broken)).toContain('ended with');
    expect(await pdfTroubles(bytes)).toBe('');
  });

  it('has its title, its size, and both fonts embedded as subsets', async () => {
    const bytes = await bytesOf();
    const { title, fonts } = await pdfStructure(bytes);
    expect(title).toBe('Łódka at Ωmega Reef: day card, printed Mon 1 Mar 2027');
    for (const { widthPt, heightPt } of await readPdf(bytes)) {
      expect(widthPt).toBeCloseTo((210 / 25.4) * 72, 3);
      expect(heightPt).toBeCloseTo((148 / 25.4) * 72, 3);
    }
    const names = fonts.map((font) => font.name.slice(7));
    // One subset a face, and none of a face without a letter on these pages.
    expect(new Set(names).size).toBe(names.length);
    expect(names).toContain('SourceSerif4-SemiBold');
    expect(names).toContain('IBMPlexSansCond-Bold');
    expect(names.filter((name) => /PlexSans-/.test(name))).toEqual([]);
    for (const font of fonts) {
      expect(font).toMatchObject({
        name: expect.stringMatching(/^[A-Z]{6}\+/),
        isEmbedded: true,
        hasLetters: true,
      });
    }
  });

  it('names each page in the outline', async () => {
    const { outline } = await pdfStructure(await bytesOf());
    expect(outline).toEqual(layoutOf(trip).pages.map((page) => page.name));
    expect(outline).toContain('Guest 1, Жанна, Sat 6 March, dive 1; Guest 1, Жанна, Sat 6 March');
  });

  it('is tagged: language, headings, the grid as a table with its heads, in the order it is read', async () => {
    const { language, isTagged, structure } = await pdfStructure(await bytesOf());
    expect(language).toBe('en');
    expect(isTagged).toBe(true);
    const grid = 'Table(TR(TH TH TH TH) TR(TH TD TD TD) TR(TH TD TD TD) TR(TH TD TD TD))';
    const front = `H1 P H2 P ${grid} P`;
    // A card a page: its front with one dive, and its back with lines alone.
    // However many paragraphs plain words are.
    expect(structure.replaceAll(/P( P)+/g, 'P')).toBe(`Document(Sect(${front} H1 P) Sect(${front} H1 P))`);
  });

  it('has a table a kind that has one, and no words outside the structure', async () => {
    for (const kind of ['briefing', 'trip'] as const) {
      const { structure } = await pdfStructure(await bytesOf({ kind, paper: aPaper('A4') }));
      expect(structure).toMatch(/^Document\(Sect\(.*H1.*Table\(TR\(TH /);
    }
  });

  it('gives the text back letter for letter', async () => {
    const text = (await readPdf(await bytesOf())).map((page) => page.text).join('');
    expect(text).toContain('Жанна');
  });

  it('sets each word as wide as it was measured, where it was laid', async () => {
    const [page] = await readPdf(await bytesOf());
    const single = textsOf(layoutOf(trip).pages[0]!).filter((mark) => !/\s/.test(mark.text));
    expect(single.length).toBeGreaterThan(5);
    for (const mark of single) {
      const word = page!.words.find(
        ({ text, x, baseline }) =>
          text === mark.text && Math.abs(x - mark.x) < PLACE_PT && Math.abs(baseline - mark.y) < PLACE_PT,
      );
      expect(word, `"${mark.text}" at ${mark.x}, ${mark.y}`).toBeDefined();
      expect(Math.abs(word!.width + readersCut(mark) - mark.width)).toBeLessThan(PLACE_PT);
    }
  });

  it('stops where it is told to', async () => {
    const seen: number[] = [];
    const made = await slatePdf(aRequest(trip), (done) => {
      seen.push(done);
      return done === 2;
    });
    expect(made).toEqual({ ok: true, value: null });
    expect(seen).toEqual([1, 2]);
  });

  it('says which letters the font lacks', async () => {
    const made = await slatePdf(aRequest({ ...trip, party: [aDiver({ name: '海 Guest' })] }));
    assert(made.ok && made.value !== null, 'no PDF');
    expect(made.value.missingLetters).toEqual(['海']);
  });
});

describe('writePdf', () => {
  it('places a mark on its letter, and writes all else as letters that follow each other', async () => {
    const contentOf = async (text: string): Promise<string> => {
      const marks = setterOf(FONTS).line(text, { font: 'text', sizePt: 11 }, 20, 20);
      const pages = [{ name: 'A', widthPt: 100, heightPt: 100, marks }];
      const facts = { title: 'A', printedOn: '2027-03-01', compress: false };
      const bytes = Buffer.from((await writePdf(pages, FONTS, facts))!).toString('latin1');
      return bytes.slice(bytes.indexOf('/MCID 0'), bytes.indexOf('EMC', bytes.indexOf('/MCID 0')));
    };
    expect((await contentOf('quo')).match(/ Tm$/gm)).toHaveLength(1);
    // No letter has both in one: the tilde stands above the q, and o goes on from there.
    expect((await contentOf('uq\u0303o')).match(/ Tm$/gm)!.length).toBeGreaterThan(2);
  });

  it('writes nothing that hangs on the clock', async () => {
    const laid = slatePages(aRequest(trip));
    assert(laid.ok, 'no pages');
    const facts = { title: 'A', printedOn: '2027-03-01', compress: false };
    const text = Buffer.from((await writePdf(laid.value.pages, FONTS, facts))!).toString('latin1');
    const year = new Date().getFullYear();
    expect(text).toContain('D:20270301000000Z');
    expect(text).not.toContain(`D:${year}`);
  });
});
