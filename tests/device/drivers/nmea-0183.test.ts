import { describe, expect, it } from 'vitest';
import { valueOfCount } from '#core/part/counted.ts';
import {
  countedOf,
  type NmeaChoice,
  quantitiesOf,
  readHeel,
  withoutRepeated,
} from '#device/drivers/nmea-0183.ts';
import { checksumOf, readSentence } from '#device/drivers/nmea-sentence.ts';

const XDR: NmeaChoice = { sentence: 'XDR' };
const sentenceOf = (body: string) => readSentence(`$${body}*${checksumOf(body)}`, 'a line');
const read = (body: string, choice: NmeaChoice = XDR) => readHeel(sentenceOf(body), choice);
const faultOf = (body: string, choice: NmeaChoice = XDR) => read(body, choice)?.counts[0]?.fault;
const heelDegOf = (body: string, choice: NmeaChoice = XDR) => {
  const count = read(body, choice)?.counts[0]?.count;
  return count == null ? null : valueOfCount(count, countedOf('heel', null));
};

describe('heel by XDR', () => {
  it('is the angle of the transducer called roll or heel, whoever speaks', () => {
    expect(heelDegOf('YXXDR,A,0.512,D,PTCH,A,-1.034,D,ROLL')).toBeCloseTo(-1.034, 12);
    expect(heelDegOf('WIXDR,A,+02.9,D,PITCH,A,+00.7,D,ROLL')).toBeCloseTo(0.7, 12);
    expect(heelDegOf('IIXDR,A,-1.5,D,Heel')).toBeCloseTo(-1.5, 12);
    expect(heelDegOf('GPXDR,A,0.6135744,D,PTCH,A,-0.6135744,D,ROLL')).toBeCloseTo(-0.6135744, 12);
  });

  it('is that of the name asked for, in any case, with a number of its own or not', () => {
    const body = 'YXXDR,A,1.0,D,Roll#1,A,2.0,D,Roll#2,A,3.0,D,TILT';
    expect(heelDegOf(body, { sentence: 'XDR', transducer: 'ROLL#2' })).toBe(2);
    expect(heelDegOf(body, { sentence: 'XDR', transducer: 'tilt' })).toBe(3);
    // Which of the two, nobody can tell.
    expect(faultOf(body, { sentence: 'XDR', transducer: 'ROLL' })).toBe('nmea-field');
    expect(faultOf(body)).toBe('nmea-field');
  });

  it('says how many places it was printed with', () => {
    expect(read('YXXDR,A,1.0,D,ROLL')!.places).toBe(1);
    expect(read('YXXDR,A,1.000,D,ROLL')!.places).toBe(3);
  });

  it('takes a temperature along when asked to', () => {
    const choice: NmeaChoice = { sentence: 'XDR', temperature: 'TEMP' };
    expect(quantitiesOf(choice)).toEqual(['heel', 'temperature']);
    const both = read('YXXDR,A,1.0,D,ROLL,C,19.5,C,TEMP', choice)!;
    expect(valueOfCount(both.counts[1]!.count!, countedOf('temperature', null))).toBeCloseTo(19.5);
    expect(read('YXXDR,A,1.0,D,ROLL', choice)!.counts[1]).toEqual({ count: null, fault: null });
  });

  it('is nothing in other sentences and of other transducers', () => {
    for (const body of ['YXXDR,A,1.0,D,PTCH', 'YXXDR,C,1.0,C,ROLL', 'HCHDG,1,,,,', 'YXXDR'])
      expect(read(body), body).toBeNull();
  });

  it.each([
    ['another unit', 'YXXDR,A,1.0,P,ROLL', 'nmea-unit'],
    ['radians', 'YXXDR,A,0.01,R,ROLL', 'nmea-unit'],
    ['no unit', 'YXXDR,A,1.0,,ROLL', 'nmea-unit'],
    ['no value', 'YXXDR,A,,D,ROLL', 'nmea-no-data'],
    ['words', 'YXXDR,A,1.O,D,ROLL', 'nmea-field'],
    ['an exponent', 'YXXDR,A,1e0,D,ROLL', 'nmea-field'],
    ['a decimal comma', 'YXXDR,A,1,0,D,ROLL,A,1.0,D,ROLL', 'nmea-field'],
    ['more than a turn', 'YXXDR,A,181,D,ROLL', 'nmea-field'],
    ['a field left out', 'YXXDR,A,1.0,D,ROLL,A,2.0', 'nmea-field'],
  ])('refuses %s with its code, and gives no count', (_, body, code) => {
    expect(read(body)?.counts).toEqual([{ count: null, fault: code }]);
  });
});

describe('heel by PASHR', () => {
  const PASHR: NmeaChoice = { sentence: 'PASHR' };
  const at = (time: string, roll = '-01.26') =>
    `PASHR,${time},224.19,T,${roll},+00.83,+00.00,0.101,0.113,0.267,1,0`;

  it('is the roll, with the time of the instrument beside it', () => {
    expect(quantitiesOf(PASHR)).toEqual(['heel', 'time']);
    const [heel, time] = read(at('085335.000'), PASHR)!.counts;
    expect(valueOfCount(heel!.count!, countedOf('heel', null))).toBeCloseTo(-1.26, 12);
    expect(time).toEqual({ count: ((8 * 60 + 53) * 60 + 35) * 1000, fault: null });
  });

  it('refuses a time that is none, a missing T and a missing roll', () => {
    for (const time of ['245335.000', '086035.000', '085361.000', '8533500', '085335.0000'])
      expect(faultOf(at(time), PASHR), time).toBe('nmea-field');
    expect(faultOf(at('085335.000').replace(',T,', ',M,'), PASHR)).toBe('nmea-field');
    expect(faultOf(at('085335.000', ''), PASHR)).toBe('nmea-no-data');
    expect(read(at(''), PASHR)!.counts[1]).toEqual({ count: null, fault: null });
  });

  it("passes over another maker's sentence of the same name", () => {
    expect(read('PASHR,ATT,1,2,3', PASHR)).toBeNull();
    expect(read(at('085335.000'))).toBeNull();
  });

  it('does not take the same time twice', () => {
    const first = read(at('085335.10'), PASHR)!;
    const same = withoutRepeated(PASHR, read(at('085335.10', '2.00'), PASHR)!, first);
    expect(same.counts.map(({ fault }) => fault)).toEqual(['nmea-repeated', 'nmea-repeated']);
    const next = read(at('085335.20'), PASHR)!;
    expect(withoutRepeated(PASHR, next, first)).toBe(next);
    const untimed = read(at(''), PASHR)!;
    expect(withoutRepeated(PASHR, untimed, untimed)).toBe(untimed);
    // The same temperature twice is no repetition.
    const warm: NmeaChoice = { sentence: 'XDR', temperature: 'TEMP' };
    const reading = read('YXXDR,A,1.0,D,ROLL,C,19.5,C,TEMP', warm)!;
    expect(withoutRepeated(warm, reading, reading)).toBe(reading);
  });
});
