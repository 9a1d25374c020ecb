import { expect, it } from 'vitest';
import { testReport } from '#core/report/test-report.ts';
import { handCheck } from '#core/session/hand-check.ts';
import { pdfOfDocument } from '#receiver/export/pdf.ts';
import { pageNodes } from '#receiver/export/pdf-layout.ts';
import { Tag } from '#receiver/export/pdf-tags.ts';
import { aWideDay } from '#tests/support/wide-day.ts';

it('lays out forty shifts, six instruments and three hundred items, every heading with what it stands over', async () => {
  const day = aWideDay();
  expect(day.result.refused).toBeNull();
  const document = testReport(day, handCheck(day.session), []);
  const nodes = pageNodes(document, new Tag('Document', null));
  // A heading is never laid out by itself: it is a part of what may not be broken.
  expect(nodes.some((node) => (node.tag as Tag | undefined)?.type === 'H1')).toBe(false);
  const bytes = await pdfOfDocument(document);
  const pages =
    Buffer.from(bytes)
      .toString('latin1')
      .match(/\/Type \/Page\b/g)?.length ?? 0;
  expect(pages).toBeGreaterThan(20);
  expect(pages).toBeLessThan(90);
}, 60_000);

it('begins a page where one is asked for, and leaves no margin for another at the end', () => {
  const nodes = pageNodes(
    {
      ...{ title: 't', subject: 's', language: 'en', wall: '2026-05-04T16:00:00.000Z', foot: '' },
      ...{ marks: [], attachments: [] },
      blocks: [
        { kind: 'paragraph', text: 'one' },
        { kind: 'page' },
        { kind: 'heading', level: 1, text: 'two' },
        { kind: 'paragraph', text: 'three' },
        { kind: 'paragraph', text: 'last' },
      ],
    },
    new Tag('Document', null),
  );
  expect(nodes.map((node) => node['pageBreak'] ?? null)).toEqual([null, 'before', null]);
  expect((nodes.at(-1)!['margin'] as number[])[3]).toBe(0);
});
