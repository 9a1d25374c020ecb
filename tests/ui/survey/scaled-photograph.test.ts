import fc from 'fast-check';
import { expect, it } from 'vitest';
import { base64Of, scaledSize } from '#ui/survey/scaled-photograph.ts';

it('scales the longer side down and never up, keeping the shape', () => {
  expect(scaledSize(4000, 3000, 2048)).toEqual({ width: 2048, height: 1536 });
  expect(scaledSize(3000, 4000, 2048)).toEqual({ width: 1536, height: 2048 });
  expect(scaledSize(640, 480, 2048)).toEqual({ width: 640, height: 480 });
  expect(scaledSize(20_000, 3, 800)).toEqual({ width: 800, height: 1 });
});

it('writes bytes of any length as base64', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      expect(base64Of(bytes)).toBe(Buffer.from(bytes).toString('base64'));
    }),
  );
  const large = new Uint8Array(100_001).fill(7);
  expect(base64Of(large)).toBe(Buffer.from(large).toString('base64'));
});
