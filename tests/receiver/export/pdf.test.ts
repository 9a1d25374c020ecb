import { inflateSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { table } from '#core/report/blocks.ts';
import type { Block, ReportDocument } from '#core/report/document.ts';
import { pdfOfDocument } from '#receiver/export/pdf.ts';

const document = (blocks: Block[], over: Partial<ReportDocument> = {}): ReportDocument => ({
  title: 'Inclining test report',
  subject: 'Marram, Kettle Sound',
  language: 'en',
  wall: '2026-05-04T16:00:00.000Z',
  marks: ['Draft: the test is not closed', 'Unsigned'],
  foot: 'Record r, 100 lines',
  blocks,
  attachments: [
    {
      name: 'lines.jsonl',
      type: 'application/jsonl',
      description: 'lines',
      bytes: Buffer.from('{"n":0}\n'),
    },
  ],
  ...over,
});
const LONG: Block[] = [
  { kind: 'title', text: 'Inclining test of Ελπίδα' },
  { kind: 'heading', level: 1, text: 'Readings of Надежда' },
  table(
    [
      ['State', 1],
      ['Heel', 1, 'right'],
    ],
    Array.from({ length: 120 }, (_, k) => [String(k), '\u22121.234']),
  ),
  {
    ...{ kind: 'figure', widthMm: 100, heightMm: 50, caption: 'A line', words: 'it rises' },
    svg: '<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100" viewBox="0 0 200 100"><path d="M0 0L9 9" stroke="#000"/></svg>',
  },
];

/** Objects and unpacked streams as text: enough to see what is in the file. */
function insides(bytes: Uint8Array): string {
  const raw = Buffer.from(bytes).toString('latin1');
  const streams = [...raw.matchAll(/stream\r?\n([\s\S]*?)\r?\nendstream/g)].map(([, body]) => {
    try {
      return inflateSync(Buffer.from(body ?? '', 'latin1')).toString('latin1');
    } catch {
      return '';
    }
  });
  return raw.replace(/stream\r?\n[\s\S]*?\r?\nendstream/g, '') + streams.join('\n');
}

describe('a document as PDF', () => {
  let bytes: Uint8Array;
  let inside: string;
  beforeAll(async () => {
    bytes = await pdfOfDocument(document(LONG));
    inside = insides(bytes);
  });

  it('is the same bytes from the same document', async () => {
    expect(Buffer.compare(bytes, await pdfOfDocument(document(LONG)))).toBe(0);
    expect(
      Buffer.compare(bytes, await pdfOfDocument(document(LONG, { foot: 'another' }))),
    ).not.toBe(0);
  });

  it('has title, language, its own date, and only embedded fonts', () => {
    expect(inside.includes('(Inclining test report)')).toBe(true);
    expect(inside.includes('/Lang (en)')).toBe(true);
    expect(inside.includes('(D:20260504160000Z)')).toBe(true);
    expect(inside.includes('/DisplayDocTitle true')).toBe(true);
    const fonts = inside.match(/\/Type \/FontDescriptor/g) ?? [];
    expect(fonts.length).toBeGreaterThanOrEqual(2);
    expect(inside.match(/\/FontFile2/g)).toHaveLength(fonts.length);
  });

  it('is tagged: headings, tables with their heads, figures with words; heads repeated on a page are not read again', () => {
    expect(inside.includes('/Marked true')).toBe(true);
    for (const type of ['Document', 'H1', 'P', 'Table', 'TR', 'TD', 'Figure', 'Caption'])
      expect(inside.includes(`/S /${type}`), type).toBe(true);
    expect(inside.match(/\/S \/TH\b/g)).toHaveLength(2);
    expect(inside.match(/\/S \/TD\b/g)).toHaveLength(240);
    expect(inside.includes('/Alt (it rises)')).toBe(true);
    expect(inside.includes('/Artifact BMC')).toBe(true);
  });

  it('has every page numbered of all, and the attachment within', () => {
    expect(inside.match(/\/Type \/Page\b/g)!.length).toBeGreaterThanOrEqual(3);
    expect(inside.includes('/EmbeddedFiles')).toBe(true);
    expect(inside.includes('{"n":0}')).toBe(true);
  });

  it('is other bytes where something is marked as changed, and the same where nothing is', async () => {
    const rows = (isChanged: boolean) =>
      table(
        [['a', 1]],
        [['1'], ['2']].map((cells, k) => ({
          cells,
          struck: false,
          ...(isChanged && k === 1 ? { isChanged } : {}),
        })),
      );
    const plain = await pdfOfDocument(document([rows(false)]));
    expect(Buffer.compare(plain, await pdfOfDocument(document([rows(false)])))).toBe(0);
    expect(Buffer.compare(plain, await pdfOfDocument(document([rows(true)])))).not.toBe(0);
  });

  it('refuses a script it does not print, wherever it stands', async () => {
    const hidden: Block[] = [
      { kind: 'paragraph', text: 'שלום' },
      { kind: 'list', items: ['船'] },
      { kind: 'facts', rows: [['a', '船']] },
      { kind: 'ink', lines: ['船'] },
      table([['船', 1]], [['a']]),
      table([['a', 1]], [['船']]),
      { ...(LONG[3] as Extract<Block, { kind: 'figure' }>), caption: '船' },
      { kind: 'exact', text: '船' },
    ];
    for (const block of hidden)
      await expect(pdfOfDocument(document([block]))).rejects.toMatchObject({
        code: 'text-not-printable',
      });
    await expect(pdfOfDocument(document([], { subject: '船' }))).rejects.toMatchObject({
      code: 'text-not-printable',
    });
    await expect(pdfOfDocument(document([], { marks: ['船'] }))).rejects.toMatchObject({
      code: 'text-not-printable',
    });
  });
});
