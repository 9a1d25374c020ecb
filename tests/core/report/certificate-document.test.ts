import { expect, it } from 'vitest';
import { certificateDocument } from '#core/report/certificate-document.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { textsOf } from '#tests/support/reported-day.ts';

const frame = { subject: 's', wall: '2026-05-01T00:00:00.000Z', marks: [], foot: 'f' };

it('prints every raw pair with what the line leaves over, and holds the certificate as a file', () => {
  const certificate = {
    ...aDay().certificates[0]!,
    zero: 0.001,
    scale: 1.002,
    points: [
      [0.01, 0.01102],
      [0.02, 0.02104],
      [-0.01, -0.00902],
    ] as [number, number][],
  };
  const document = certificateDocument([certificate], frame);
  const texts = textsOf(document.blocks);
  expect(texts).toEqual(
    expect.arrayContaining(['0.01', '0.01102', '\u22120.00902', 'not taken', 'first calibration']),
  );
  const kept = JSON.parse(new TextDecoder().decode(document.attachments[0]!.bytes)) as unknown;
  expect(kept).toEqual(certificate);
});

it('begins each certificate on a page of its own', () => {
  const { blocks } = certificateDocument(aDay().certificates, frame);
  expect(blocks.filter(({ kind }) => kind === 'page')).toHaveLength(2);
});
