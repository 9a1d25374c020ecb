import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SentenceLines } from '#device/bus/sentence-lines.ts';

const ROLL = '$YXXDR,A,0.512,D,PTCH,A,-1.034,D,ROLL*70';
const PASHR = '$PASHR,085335.000,224.19,T,-01.26,+00.83,+00.00,0.101,0.113,0.267,1,0*06';

function listening() {
  const sentences: string[] = [];
  const since: number[] = [];
  const malformed: string[] = [];
  const lines = new SentenceLines('a line', {
    sentence: ({ text, bytesSinceStart }) => {
      sentences.push(text);
      since.push(bytesSinceStart);
    },
    malformed: (fault) => malformed.push(`${fault.code} ${fault.report.found}`),
  });
  return { sentences, since, malformed, hear: (text: string) => lines.take(Buffer.from(text)) };
}

describe('sentences on a line', () => {
  it('are found however the bytes are cut', () => {
    const text = `xx0.5,D,ROLL*11\r\n${ROLL}\r\n${PASHR}\r\n!AIVDM,1,1*00\r\n${ROLL}\n`;
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: text.length })), (cuts) => {
        const line = listening();
        const at = [0, ...cuts.toSorted((a, b) => a - b), text.length];
        for (let k = 1; k < at.length; k++) line.hear(text.slice(at[k - 1], at[k]));
        expect(line.sentences).toEqual([ROLL, PASHR, ROLL]);
        expect(line.malformed).toEqual([]);
      }),
    );
  });

  it('say how many bytes have come since they began, so that a burst is told apart in time', () => {
    const line = listening();
    line.hear(ROLL.slice(0, 10));
    line.hear(`${ROLL.slice(10)}\r\n${PASHR}\r\n`);
    // Each with its own end and all that follows it in the piece.
    expect(line.since).toEqual(
      [ROLL.length + 2 + PASHR.length + 2, PASHR.length + 2].map((n) => n),
    );
  });

  it('are not used when cut short by another, of strange bytes or without an end', () => {
    const line = listening();
    line.hear(`${ROLL.slice(0, 12)}${ROLL}\r\n`);
    expect(line.malformed).toEqual(['nmea-malformed cut short: $YXXDR,A,0.5']);
    line.hear(`$YX\u0001XDR,A,1,D,ROLL*00\r\n$${'A'.repeat(5000)}\r\n${PASHR}\r\n`);
    expect(line.malformed.slice(1)).toEqual([
      'nmea-malformed byte 1 after $YX',
      'nmea-malformed over 164 characters',
    ]);
    expect(line.sentences).toEqual([ROLL, PASHR]);
  });

  it('come out of any bytes without an error', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 300 })), (pieces) => {
        const line = listening();
        for (const piece of pieces) line.hear(Buffer.from(piece).toString('latin1'));
        for (const text of line.sentences) expect(text).toMatch(/^\$[\x20-\x7e]{0,164}$/);
      }),
    );
  });
});
