import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Block, ReportDocument } from '#core/report/document.ts';
import { printableText } from '#core/report/printable-text.ts';
import { PROGRAM_NAME } from '../program.ts';
import { fontCoverage } from './font-coverage.ts';
import { BODY_STYLE, pageNodes } from './pdf-layout.ts';
import { PAGE_MARGINS, PAGE_SIZE, pageFoot, pageHead } from './pdf-page.ts';
import { Tag, TaggedLayout, TaggedRenderer } from './pdf-tags.ts';
import { type PdfDocument, PdfDocumentOfParts, SvgMeasureOfParts } from './pdfmake-parts.ts';

const require = createRequire(import.meta.url);
const font = (name: string) => require.resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`);
const PDF_VERSION = '1.7';

/**
 * A document as PDF: A4, fonts embedded, titled, tagged for reading aloud, attachments within. The
 * bytes are a function of the document alone: its own moment stands for the time it was made.
 * Throws `text-not-printable`.
 */
export async function pdfOfDocument(asked: ReportDocument): Promise<Uint8Array> {
  const fonts = {
    text: { normal: font('DejaVuSansCondensed'), bold: font('DejaVuSansCondensed-Bold') },
    exact: { normal: font('DejaVuSansMono'), bold: font('DejaVuSansMono-Bold') },
  };
  const document = printableDocument(asked, fontCoverage(readFileSync(fonts.text.normal)));
  const pdf = new PdfDocumentOfParts(fonts, {}, {}, {}, pdfOptions(document));
  const done = bytesOf(pdf);
  const madeAt = new Date(document.wall);
  for (const { name, type, description, bytes } of document.attachments)
    pdf.file(`data:${type};base64,${Buffer.from(bytes).toString('base64')}`, {
      ...{ name, description, creationDate: madeAt, modifiedDate: madeAt },
      relationship: 'Source',
    });
  const [left, top, right, bottom] = PAGE_MARGINS;
  const margins = { left, top, right, bottom };
  const layout = new TaggedLayout(PAGE_SIZE, margins, new SvgMeasureOfParts());
  const root = new Tag('Document', null);
  const pages = layout.layoutDocument(
    pageNodes(document, root),
    pdf,
    {},
    BODY_STYLE,
    undefined,
    (page) => pageHead(document, layout.isChanged(page)),
    (page, of) => pageFoot(document, page, of),
  );
  new TaggedRenderer(pdf).drawPages(pages);
  pdf.end();
  return done;
}

function pdfOptions({ title, subject, language, wall }: ReportDocument): object {
  return {
    size: [PAGE_SIZE.width, PAGE_SIZE.height],
    pdfVersion: PDF_VERSION,
    tagged: true,
    displayTitle: true,
    lang: language,
    compress: true,
    fontLayoutCache: true,
    autoFirstPage: false,
    font: null,
    info: {
      Title: title,
      Subject: subject,
      Creator: PROGRAM_NAME,
      Producer: PROGRAM_NAME,
      CreationDate: new Date(wall),
    },
  };
}

function bytesOf(pdf: PdfDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    pdf.on('data', (chunk) => chunks.push(chunk));
    pdf.on('end', () => resolve(Buffer.concat(chunks)));
    pdf.on('error', reject);
  });
}

/** The same with every text as it can be printed. */
function printableDocument(
  document: ReportDocument,
  hasGlyph: (codePoint: number) => boolean,
): ReportDocument {
  const printed = (text: string, where: string) => printableText(text, where, hasGlyph);
  const { title, subject, foot, marks, blocks } = document;
  return {
    ...document,
    title: printed(title, 'title'),
    subject: printed(subject, 'subject'),
    foot: printed(foot, 'foot'),
    marks: marks.map((mark) => printed(mark, 'marks')),
    blocks: blocks.map((block, k) =>
      printableBlock(block, (text) => printed(text, `part ${k + 1}, ${block.kind}`)),
    ),
  };
}

function printableBlock(block: Block, printed: (text: string) => string): Block {
  switch (block.kind) {
    case 'page':
      return block;
    case 'list':
      return { ...block, items: block.items.map(printed) };
    case 'photographs':
      return {
        ...block,
        pictures: block.pictures.map(({ jpeg, caption }) => ({ jpeg, caption: printed(caption) })),
      };
    case 'ink':
      return { ...block, lines: block.lines.map(printed) };
    case 'facts':
      return { ...block, rows: block.rows.map(([name, text]) => [printed(name), printed(text)]) };
    case 'table':
      return {
        ...block,
        columns: block.columns.map((column) => ({ ...column, head: printed(column.head) })),
        rows: block.rows.map((row) => ({ ...row, cells: row.cells.map(printed) })),
      };
    case 'figure':
      return {
        ...block,
        svg: printed(block.svg),
        caption: printed(block.caption),
        words: printed(block.words),
      };
    default:
      return { ...block, text: printed(block.text) };
  }
}
