import {
  DrawingOfParts,
  LayoutOfParts,
  type PdfDocument,
  type PlacedItem,
  type PlacedLine,
  type PlacedPage,
  type StructureElement,
} from './pdfmake-parts.ts';

/** One element of what a document is read aloud by: its kind (ISO 32000-1, 14.8.4) and what it hangs on. */
export class Tag {
  readonly type: string;
  readonly parent: Tag | null;
  readonly attributes: { readonly alt?: string; readonly scope?: string };
  /** It, or what it hangs on, does not stand so in the revision before. */
  readonly isChanged: boolean;

  constructor(
    type: string,
    parent: Tag | null,
    attributes: Tag['attributes'] = {},
    isChanged = parent?.isChanged ?? false,
  ) {
    this.type = type;
    this.parent = parent;
    this.attributes = attributes;
    this.isChanged = isChanged;
  }
}

/** What a node of the page carries to say how it is read. */
export interface Tagged {
  readonly tag: Tag;
}

/** Lays out as the library does, and keeps of each line the node it came from. */
export class TaggedLayout extends LayoutOfParts {
  override buildNextLine(node: object): PlacedLine | null {
    const line = super.buildNextLine(node);
    if (line !== null) line.source = node;
    return line;
  }

  /** Does anything on a page that was laid out stand otherwise than in the revision before? From 1. */
  isChanged(page: number): boolean {
    const items = this.writer.context().pages[page - 1]?.items ?? [];
    return items.some((item) => tagOf(item)?.isChanged === true);
  }
}

/**
 * Draws placed pages and tags what is read: lines and pictures by the tag of their node. Heads,
 * feet, rules and the heads of tables repeated on a further page are marked as no content.
 */
export class TaggedRenderer extends DrawingOfParts {
  readonly #document: PdfDocument;
  readonly #elements = new Map<Tag, StructureElement>();
  /** Page a table's head stands on for the first time. */
  readonly #headOn = new Map<Tag, number>();

  constructor(document: PdfDocument) {
    super(document);
    this.#document = document;
  }

  drawPages(pages: readonly PlacedPage[]): void {
    pages.forEach(({ items, pageSize }, page) => {
      this.#document.addPage({ size: [pageSize.width, pageSize.height] });
      for (const item of items) this.#drawItem(item, page);
    });
    for (const element of [...this.#elements.values()].reverse()) element.end();
  }

  #drawItem(item: PlacedItem, page: number): void {
    const tag = tagOf(item);
    const element = tag === null || this.#isRepeated(tag, page) ? null : this.#elementOf(tag);
    if (tag === null || element === null) this.#document.markContent('Artifact');
    else element.add(this.#document.markStructureContent(tag.type));
    this.#draw(item);
    this.#document.endMarkedContent();
  }

  #isRepeated(tag: Tag, page: number): boolean {
    if (tag.type !== 'TH' || tag.attributes.scope !== 'Column') return false;
    const first = this.#headOn.get(tag) ?? page;
    this.#headOn.set(tag, first);
    return first !== page;
  }

  #elementOf(tag: Tag): StructureElement {
    const known = this.#elements.get(tag);
    if (known !== undefined) return known;
    const parent = tag.parent === null ? null : this.#elementOf(tag.parent);
    const element = this.#document.struct(tag.type, tag.attributes);
    if (parent === null) this.#document.addStructure(element);
    else parent.add(element);
    this.#elements.set(tag, element);
    return element;
  }

  #draw({ type, item }: PlacedItem): void {
    switch (type) {
      case 'line':
        this.renderLine(item, item.x, item.y);
        return;
      case 'vector':
        this.renderVector(item);
        return;
      case 'svg':
        this.renderSVG(item);
        return;
      case 'image':
        this.renderImage(item);
        return;
      default:
        throw new Error(`the layout placed a ${type}, which is not drawn`);
    }
  }
}

/** Null: nothing that is read. */
function tagOf({ item }: PlacedItem): Tag | null {
  const node = (item.source ?? item) as Partial<Tagged>;
  return node.tag ?? null;
}
