import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { readLine } from '#core/record/read-line.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import { everyKindRecord } from '#tests/support/every-kind-record.ts';
import { VENOM } from '#tests/support/hostile-messages.ts';
import { bytesOf } from '#tests/support/record-lines.ts';

const texts = everyKindRecord(2).lines.map((bytes) => Buffer.from(bytes).toString());

/** Reads and folds; a fault is an answer, anything else thrown is a hole. */
function answerTo(bytes: Uint8Array): string {
  try {
    foldLine(EMPTY_SESSION, readLine(bytes, 'here').line);
    return 'read';
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
}

describe('lines from a stranger', () => {
  it('end in a line or a fault, whatever bytes they are', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(answerTo(bytes)).toMatch(/^record-/);
      }),
    );
  });

  it('end in a line or a fault when a value of a good line is something else', () => {
    const line = fc.constantFrom(...texts);
    const venom = fc.oneof(fc.constantFrom(...VENOM), fc.json({ maxDepth: 3 }));
    fc.assert(
      fc.property(line, fc.nat(), venom, (text, at, put) => {
        const values = [...text.matchAll(/(?<=[:,[])(?:"[^"]*"|-?[0-9.e+-]+|null|true|false)/g)];
        const value = values[at % values.length]!;
        const strange =
          text.slice(0, value.index) + put + text.slice(value.index + value[0].length);
        expect(['read', 'record-line', 'record-newer']).toContain(answerTo(bytesOf(strange)));
        expect(Object.hasOwn(Object.prototype, 'lines')).toBe(false);
      }),
      { numRuns: 2000 },
    );
  });

  it('are refused when a key stands twice, in the envelope, the body or below', () => {
    for (const text of texts) {
      const at = text.indexOf('"body":{') + '"body":'.length;
      const [first] = /"[A-Za-z]+":/.exec(text.slice(at))!;
      const twice = `${text.slice(0, at + 1)}${first}0,${text.slice(at + 1)}`;
      expect([twice, answerTo(bytesOf(twice))]).toEqual([twice, 'record-line']);
      const envelope = text.replace('"kind":', '"n":0,"kind":');
      expect(answerTo(bytesOf(envelope))).toBe('record-line');
    }
    const certificate = texts.find((text) => text.includes('"test-opened"'))!;
    const below = certificate.replace('"kmM":3', '"kmM":2,"kmM":3');
    expect(below).not.toBe(certificate);
    expect(answerTo(bytesOf(below))).toBe('record-line');
  });
});
