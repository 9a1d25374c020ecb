import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { checksumOf, readSentence } from '#device/drivers/nmea-sentence.ts';

const codeOf = (text: string) => {
  try {
    readSentence(text, 'a line');
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
  return null;
};

describe('a sentence', () => {
  // Published examples of instruments (gpsd's notes, makers' manuals), checksums computed by hand.
  it.each([
    [
      '$HCXDR,A,171,D,PITCH,A,-37,D,ROLL,G,367,,MAGX,G,2420,,MAGY,G,-8984,,MAGZ*41',
      'HC',
      'XDR',
      20,
    ],
    ['$WIXDR,A,+02.9,D,PITCH,A,+00.7,D,ROLL*07', 'WI', 'XDR', 8],
    ['$GPXDR,A,0.6135744,D,PTCH,A,-0.6135744,D,ROLL*66', 'GP', 'XDR', 8],
    ['$YXXDR,A,0.512,D,PTCH,A,-1.034,D,ROLL*70', 'YX', 'XDR', 8],
    ['$PASHR,085335.000,224.19,T,-01.26,+00.83,+00.00,0.101,0.113,0.267,1,0*06', 'P', 'ASHR', 11],
  ])('%s', (text, talker, type, fields) => {
    const sentence = readSentence(text, 'a line');
    expect(sentence).toMatchObject({ talker, type });
    expect(sentence.fields).toHaveLength(fields);
    expect(
      readSentence(
        text.toLowerCase().replace(text.slice(0, -2).toLowerCase(), text.slice(0, -2)),
        'a line',
      ),
    ).toEqual(sentence);
  });

  it('is refused when any one character is changed', () => {
    const text = '$YXXDR,A,0.512,D,PTCH,A,-1.034,D,ROLL*70';
    for (let k = 1; k < text.length; k++) {
      if (text[k] === '*') continue;
      const other = text[k] === '3' ? '4' : '3';
      expect(codeOf(text.slice(0, k) + other + text.slice(k + 1)), text[k]).toBe('nmea-checksum');
    }
  });

  it('is refused without a checksum, with half of one, or with more after it', () => {
    for (const text of [
      '$YXXDR,A,1,D,ROLL',
      '$YXXDR,A,1,D,ROLL*',
      '$YXXDR,A,1,D,ROLL*7',
      '$X*00*00',
    ])
      expect(codeOf(text), text).toBe('nmea-checksum');
  });

  it('is refused with an address that is none, its checksum right', () => {
    for (const body of ['', 'Y', 'yxxdr,1', 'YXXDRR,1'])
      expect(codeOf(`$${body}*${checksumOf(body)}`), body).toBe('nmea-malformed');
  });
});
