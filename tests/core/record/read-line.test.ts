import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { EMPTY_CHAIN } from '#core/record/chain.ts';
import type { LineBody } from '#core/record/line.ts';
import { readLine } from '#core/record/read-line.ts';
import { lineBytes } from '#core/record/write-line.ts';
import { bytesOf, RecordLines } from '#tests/support/record-lines.ts';

const REMARK =
  `{"n":0,"kind":"remark","v":1,"prev":"${'0'.repeat(64)}","wall":"2026-11-25T10:00:00.000Z",` +
  '"receiverS":1.5,"author":"A","role":"architect","body":{"text":"x","line":null}}\n';

function codeOf(text: string): string {
  try {
    readLine(bytesOf(text), 'here');
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
  return 'read';
}

describe('reading a line', () => {
  it('gives back what was written, with the exact text of its body', () => {
    fc.assert(
      fc.property(
        fc.string({ minLength: 1, maxLength: 60 }),
        fc.string({ minLength: 1, maxLength: 200, unit: 'grapheme' }),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        (author, text, receiverS) => {
          const bodyText = `{"line":null , "text":${JSON.stringify(text)}}`;
          const wall = '2026-11-25T10:00:00.000Z';
          const bytes = lineBytes(EMPTY_CHAIN, {
            kind: 'remark',
            wall,
            receiverS,
            author,
            role: 'witness',
            bodyText,
          });
          const read = readLine(bytes, 'here');
          expect(read.bodyText).toBe(bodyText);
          expect(read.line.author).toBe(author);
          // JSON has no minus zero.
          expect(read.line.receiverS).toBe(receiverS === 0 ? 0 : receiverS);
          expect(read.line.body).toEqual({ line: null, text });
        },
      ),
    );
  });

  it('says of a later version or kind that a newer program wrote it', () => {
    expect(codeOf(REMARK)).toBe('read');
    expect(codeOf(REMARK.replace('"v":1', '"v":2'))).toBe('record-newer');
    expect(codeOf(REMARK.replace('"remark"', '"photograph"'))).toBe('record-newer');
    expect(codeOf('{"v":3,"other":"form"}\n')).toBe('record-newer');
  });

  it('refuses every other form', () => {
    const refused = [
      '',
      '\n',
      'x\n',
      '\0\0\0\n',
      REMARK.slice(0, -1),
      REMARK.replace('"n":0,', ''),
      REMARK.replace('"n":0', '"n":-1'),
      REMARK.replace('"n":0', '"n":1e3'),
      REMARK.replace('"receiverS":1.5', '"receiverS":1e999'),
      REMARK.replace('"role":"architect"', '"role":"owner"'),
      REMARK.replace('"text":"x"', '"text":""'),
      REMARK.replace('"line":null', '"line":null,"__proto__":{"x":1}'),
      // A second value of a field after the body would be the one most parsers believe.
      REMARK.replace('}}\n', '},"role":"witness"}\n'),
      REMARK.replace('"author":"A"', '"author":"A","extra":1'),
      `${REMARK.slice(0, -2)} \n`,
    ];
    for (const text of refused) expect([text, codeOf(text)]).toEqual([text, 'record-line']);
  });

  it('refuses bytes that are not UTF-8 and lines over 2 MB before looking further', () => {
    const bad = bytesOf(REMARK);
    bad[bad.indexOf('x'.charCodeAt(0))] = 0xff;
    expect(() => readLine(bad, 'here')).toThrowError(/not UTF-8/);
    const long = REMARK.replace('"x"', `"${'x'.repeat(2 * 1024 * 1024)}"`);
    expect(() => readLine(bytesOf(long), 'here')).toThrowError(/over 2097152 bytes/);
  });

  it('opens a body without the optional fields it has gained, and refuses an unknown one as newer', () => {
    const record = new RecordLines();
    record.add('weight-landed', { state: 1, landedS: 7 });
    record.add('weight-landed', { state: 1, landedS: 7, landedUncertaintyS: 0.004 });
    const later = { state: 1, landedS: 7, landedBy: 'crane' };
    record.add('weight-landed', later as LineBody<'weight-landed'>);
    const [, older, now, newer] = record.lines;
    expect(readLine(older!, 'line 1').line.body).toEqual({ state: 1, landedS: 7 });
    expect(readLine(now!, 'line 2').line.body).toMatchObject({ landedUncertaintyS: 0.004 });
    expect(() => readLine(newer!, 'line 3')).toThrow(/record-newer.*landedBy/);
  });
});
