import { createRequire } from 'node:module';

/** The parts of pdfmake 0.3.11 that are used here; it has no types, and its own front loads from the network too. */
const require = createRequire(import.meta.url);
const part = (name: string): unknown =>
  (require(`pdfmake/js/${name}.js`) as { default: unknown }).default;

export interface StructureContent {
  readonly refs: readonly unknown[];
}
export interface StructureElement {
  add(child: StructureElement | StructureContent): this;
  end(): void;
}
export interface PdfDocument {
  struct(type: string, options?: { alt?: string; scope?: string }): StructureElement;
  addStructure(element: StructureElement): this;
  markContent(tag: 'Artifact'): this;
  markStructureContent(tag: string): StructureContent;
  endMarkedContent(): this;
  addPage(options: { size: [number, number] }): this;
  file(source: string, options: object): void;
  on(event: 'data', heard: (chunk: Uint8Array) => void): this;
  on(event: 'end', heard: () => void): this;
  on(event: 'error', heard: (error: Error) => void): this;
  end(): void;
}
export interface PlacedLine {
  x: number;
  y: number;
  /** The node it was made of: ours. */
  source?: object;
}
export interface PlacedItem {
  readonly type: string;
  readonly item: PlacedLine;
}
export interface PlacedPage {
  readonly items: readonly PlacedItem[];
  readonly pageSize: PageSize;
}
export interface PageSize {
  readonly width: number;
  readonly height: number;
}
interface Layout {
  readonly writer: { context(): { readonly pages: readonly PlacedPage[] } };
  buildNextLine(node: object): PlacedLine | null;
  layoutDocument(
    content: readonly object[],
    document: PdfDocument,
    styles: object,
    defaultStyle: object,
    background: undefined,
    header: (page: number, pages: number) => object,
    footer: (page: number, pages: number) => object,
  ): PlacedPage[];
}
interface Drawing {
  renderVector(item: unknown): void;
  renderLine(item: unknown, x: number, y: number): void;
  renderImage(item: unknown): void;
  renderSVG(item: unknown): void;
}

export const PdfDocumentOfParts = part('PDFDocument') as new (
  fonts: Record<string, Record<string, string>>,
  images: Record<string, string>,
  patterns: object,
  attachments: object,
  options: object,
) => PdfDocument;
export const LayoutOfParts = part('LayoutBuilder') as new (
  pageSize: PageSize,
  margins: object,
  svgMeasure: object,
) => Layout;
export const DrawingOfParts = part('Renderer') as new (document: PdfDocument) => Drawing;
export const SvgMeasureOfParts = part('SVGMeasure') as new () => object;
