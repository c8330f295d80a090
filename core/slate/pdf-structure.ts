/**
 * What the words of a document are, for whoever has it read out: a tree whose leaves are stretches of the pages. The
 * library can grow one too; it keeps what each leaf draws until the leaf hangs on the tree, which takes a tenth of the time of
 * a print-out of many tables.
 * Source: ISO 32000-1:2008, 14.7 (logical structure).
 */

/** An object of the file: written once it is ended. */
interface Ref {
  data: object;
  readonly end: () => void;
}

/** What the library knows of the tree; its types do not. */
type Internals = Pick<PDFKit.PDFDocument, 'addContent'> & {
  readonly ref: (data: object) => Ref;
  readonly page: { readonly dictionary: Ref; readonly structParentTreeKey: number };
  readonly getStructTreeRoot: () => Ref;
  /** The element of each stretch of a page, by the page's key. */
  readonly getStructParentTree: () => { readonly get: (key: number) => Ref[] };
};

/** What an element says of itself: a formula how it is read out, a head of a table what it is the head of. */
export interface ElementFacts {
  readonly alt?: string;
  readonly scope?: 'Column' | 'Row';
}

function attributes({ alt, scope }: ElementFacts): object {
  return {
    // A string of the library's own is a name; what is read is an object.
    // oxlint-disable-next-line no-new-wrappers
    ...(alt === undefined ? {} : { Alt: new String(alt) }),
    ...(scope === undefined ? {} : { A: { O: 'Table', Scope: scope } }),
  };
}

const NOTHING = {};

/** Ends an object, and lets go of what it said: its number is all that others ask of it until the file is whole. */
function written(ref: Ref): void {
  ref.end();
  ref.data = NOTHING;
}

/** An element that holds others. */
export class Branch {
  private readonly children: Ref[] = [];
  private readonly element: Ref;

  private constructor(
    private readonly document: Internals,
    private readonly is: string,
    private readonly parent: Ref,
  ) {
    this.element = document.ref({});
  }

  /** The root of a document's tree. */
  static rootOf(document: PDFKit.PDFDocument): Branch {
    const known = document as unknown as Internals;
    const top = known.getStructTreeRoot();
    const root = new Branch(known, 'Document', top);
    Object.assign(top.data, { K: [root.element] });
    return root;
  }

  /** Another branch, the last so far. */
  branch(is: string): Branch {
    const made = new Branch(this.document, is, this.element);
    this.children.push(made.element);
    return made;
  }

  /** What `draw` writes on the page that was begun last, as one element. */
  leaf(is: string, facts: ElementFacts, draw: () => void): void {
    const { document } = this;
    const { dictionary, structParentTreeKey } = document.page;
    const onPage = document.getStructParentTree().get(structParentTreeKey);
    const number = onPage.length;
    const leaf = document.ref({
      S: is,
      ...attributes(facts),
      P: this.element,
      K: [number],
      Pg: dictionary,
    });
    onPage.push(leaf);
    this.children.push(leaf);
    document.addContent(`/${is} <<\n/MCID ${number}\n>> BDC`);
    draw();
    document.addContent('EMC');
    written(leaf);
  }

  /** Once it has all it holds. */
  end(): void {
    this.element.data = { S: this.is, P: this.parent, K: this.children };
    written(this.element);
  }
}
