import { describe, expect, it } from 'vitest';
import { textFromUtf8 } from '#core/digest/utf-8.ts';
import { EMPTY_CHAIN } from '#core/record/chain.ts';
import { lineBytes } from '#core/record/write-line.ts';

const LINE = {
  kind: 'remark',
  wall: '2026-11-25T10:00:00.000Z',
  receiverS: 1.5,
  author: 'A "quoted" name',
  role: 'architect',
  bodyText: '{"text":"x",  "line":null}',
} as const;

describe('a line', () => {
  it('has the exact form of its format and the bytes of its body unchanged', () => {
    expect(textFromUtf8(lineBytes(EMPTY_CHAIN, LINE))).toBe(
      `{"n":0,"kind":"remark","v":1,"prev":"${'0'.repeat(64)}","wall":"2026-11-25T10:00:00.000Z",` +
        '"receiverS":1.5,"author":"A \\"quoted\\" name","role":"architect",' +
        '"body":{"text":"x",  "line":null}}\n',
    );
  });

  it('is refused with a newline in its body, a time that is no number, or over 2 MB', () => {
    const refused = (change: Partial<Record<keyof typeof LINE, unknown>>) =>
      expect(() => lineBytes(EMPTY_CHAIN, { ...LINE, ...change } as typeof LINE)).toThrowError(
        /^record-line/,
      );
    refused({ bodyText: '{"text":\n"x"}' });
    refused({ receiverS: Number.NaN });
    refused({ bodyText: JSON.stringify('x'.repeat(2 * 1024 * 1024)) });
  });
});
