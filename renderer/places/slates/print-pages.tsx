import { createRoot, type Root } from 'react-dom/client';
import { flushSync } from 'react-dom';
import { memo, useEffect, type ReactNode } from 'react';
import type { PrintPaper } from '../../../core/host';
import type { Page } from '../../../core/slate/layout';
import { PT_PER_MM } from '../../../core/slate/paper';
import { Marks } from './page-picture';
import styles from './print-pages.module.css';
import type { SlatePages } from './slate-job';

/**
 * Cut off a page's right and lower edge: browsers round the paper to their own units, and a page larger than
 * the paper by a hair would bring a blank one after it. No mark lies there.
 */
const SPARE_PT = 0.75;

const Sheet = memo(({ page }: { readonly page: Page }): ReactNode => {
  const width = page.widthPt - SPARE_PT;
  const height = page.heightPt - SPARE_PT;
  return (
    <svg width={`${width}pt`} height={`${height}pt`} viewBox={`0 0 ${width} ${height}`}>
      <Marks marks={page.marks} />
    </svg>
  );
});

/** To the micron, in which a printer is told. */
function millimetres(pt: number): number {
  return Math.round((pt / PT_PER_MM) * 1000) / 1000;
}

/** The paper that a page is as large as. */
export function paperOfPage({ widthPt, heightPt }: Page): PrintPaper {
  return { widthMm: millimetres(widthPt), heightMm: millimetres(heightPt) };
}

/**
 * Pages as the printer gets them: beside the window, unseen, and alone on paper while they are there, each
 * on a sheet of its own size, under the title that the PDF has.
 */
export class PrintPages {
  private readonly place = document.createElement('div');
  private readonly root: Root;
  private readonly sheet = new CSSStyleSheet();
  private readonly titleBefore = document.title;

  /** @param slates at least one page, all of one size */
  constructor(private readonly slates: SlatePages) {
    const { widthMm, heightMm } = paperOfPage(slates.pages[0]!);
    // A style sheet made here: the content policy lets none be written into the page.
    this.sheet.replaceSync(`@page { size: ${widthMm}mm ${heightMm}mm; margin: 0; }`);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, this.sheet];
    document.title = slates.title;
    this.place.className = styles['printPages'] ?? '';
    this.place.dataset.part = 'print-pages';
    this.root = createRoot(this.place);
    document.body.append(this.place);
  }

  /** Draws the first pages, as many as asked for; what is drawn already stays. */
  draw(count: number): void {
    const pages = this.slates.pages.slice(0, count);
    flushSync(() =>
      this.root.render(pages.map((page, i) => <Sheet key={`${i} ${page.name}`} page={page} />)),
    );
  }

  remove(): void {
    this.root.unmount();
    this.place.remove();
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((each) => each !== this.sheet);
    // Somebody else may have renamed the trip meanwhile.
    if (document.title === this.slates.title) document.title = this.titleBefore;
  }
}

/** Whether pages lie ready for print. */
function isReady(): boolean {
  return document.querySelector('[data-part="print-pages"]') !== null;
}

/**
 * However printing is asked for while the pages are shown, by keys, the menu or the browser itself, what is
 * printed is the pages.
 */
export function usePrintedAlone(slates: SlatePages | null): void {
  useEffect(() => {
    if (slates === null || slates.pages.length === 0) return undefined;
    let mine: PrintPages | null = null;
    const onBefore = (): void => {
      // The button has them there already.
      if (isReady()) return;
      mine = new PrintPages(slates);
      mine.draw(slates.pages.length);
    };
    const onAfter = (): void => {
      mine?.remove();
      mine = null;
    };
    window.addEventListener('beforeprint', onBefore);
    window.addEventListener('afterprint', onAfter);
    return () => {
      window.removeEventListener('beforeprint', onBefore);
      window.removeEventListener('afterprint', onAfter);
      onAfter();
    };
  }, [slates]);
}
