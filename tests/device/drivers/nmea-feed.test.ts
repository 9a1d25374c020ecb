import { EventEmitter } from 'node:events';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Fault } from '#core/fault/fault.ts';
import { NmeaFeed } from '#device/drivers/nmea-feed.ts';
import { checksumOf } from '#device/drivers/nmea-sentence.ts';
import type { SerialSample } from '#device/drivers/serial-feed.ts';
import { type NmeaLine, serialLine } from '#device/serial-outfit.ts';
import type { Transport } from '#device/transport.ts';
import { faultOf } from '../support/scripted-bus.ts';

class Line extends EventEmitter implements Transport {
  write = () => true;
  close = (done?: () => void) => done?.();
  say(body: string): void {
    this.emit('data', Buffer.from(`$${body}*${checksumOf(body)}\r\n`));
  }
}

const instrumentOf = (instrument: string, change: object = {}) => ({
  instrument,
  sentence: 'XDR',
  mounting: {
    ...{ instrument, label: instrument, kind: 'inclinometer', sign: 1, spanM: null },
    ...{ heightOverRollAxisM: 0, settlingS: 1 },
  },
  certificate: null,
  ...change,
});
const lineOf = (...instruments: object[]) =>
  serialLine.parse({ port: 'COM7', name: 'tilt', protocol: 'nmea-0183', instruments }) as NmeaLine;

let nowS: number;
beforeEach(() => {
  vi.useFakeTimers();
  nowS = 100;
});
afterEach(() => {
  vi.useRealTimers();
});

function feedOf(...instruments: object[]) {
  const line = new Line();
  const samples: SerialSample[] = [];
  const faults: Fault[] = [];
  const clock = { monotonicS: () => nowS, wallMs: () => 0 };
  const feed = new NmeaFeed(line, lineOf(...instruments), clock);
  const proven = feed.prove({
    sample: (sample) => samples.push(sample),
    tell: (fault) => faults.push(fault),
  });
  const rolls = (count: number, periodS: number, body = 'YXXDR,A,1.50,D,ROLL') => {
    for (let k = 0; k < count; k++) {
      nowS += periodS;
      line.say(body);
    }
  };
  return { line, feed, proven, samples, faults, rolls };
}

describe('a line of NMEA 0183', () => {
  it('tells its usual time between readings and the places it prints', async () => {
    const { proven, rolls, faults } = feedOf(instrumentOf('clino'));
    rolls(9, 0.1);
    const { channels, periodUs } = await proven;
    expect(periodUs).toBe(100_000);
    expect(channels).toMatchObject([{ quantity: 'heel', counted: { step: 0.01, unit: 'deg' } }]);
    expect(faults).toEqual([]);
  });

  it('that gives one reading a second is said to be too slow', async () => {
    const { proven, rolls, faults } = feedOf(instrumentOf('clino'));
    rolls(9, 1);
    await proven;
    expect(faults.map(({ code, report }) => [code, report.found])).toEqual([
      ['serial-too-slow', 'one every 1.00 s'],
    ]);
  });

  it('that says something else is silent, with what was heard', async () => {
    const { proven, line } = feedOf(instrumentOf('clino', { transducer: 'TILT' }));
    line.say('YXXDR,A,1.50,D,ROLL');
    line.say('HCHDG,1,,,,');
    const refused = proven.catch((error: Fault) => error.report);
    await vi.advanceTimersByTimeAsync(6000);
    expect(await refused).toEqual({
      code: 'serial-silent',
      where: 'COM7 clino',
      found: 'heard $YXXDR, $HCHDG; asked for XDR of TILT',
    });
  });

  it('has the readings of two instruments, each null when the sentence is of the other', async () => {
    const two = [
      instrumentOf('a', { transducer: 'ROLL#1' }),
      instrumentOf('b', { transducer: 'ROLL#2' }),
    ];
    const { proven, feed, line, rolls, samples } = feedOf(...two);
    rolls(9, 0.1, 'YXXDR,A,1.5,D,ROLL#1,A,2.5,D,ROLL#2');
    await proven;
    feed.start();
    line.say('YXXDR,A,1.5,D,ROLL#1');
    line.say('YXXDR,A,2.5,D,ROLL#2');
    expect(samples.map(({ counts }) => counts.map(({ count }) => count))).toEqual([
      [1_500_000_000, null],
      [null, 2_500_000_000],
    ]);
    feed.stop();
    line.say('YXXDR,A,2.5,D,ROLL#2');
    expect(samples).toHaveLength(2);
  });

  it('dates a reading back by what its sentence took to come', async () => {
    const { proven, feed, line, rolls, samples } = feedOf(instrumentOf('clino'));
    rolls(9, 0.1);
    await proven;
    feed.start();
    line.say('YXXDR,A,1.50,D,ROLL');
    // $, 19 characters, *, two digits, the line's end: 25 bytes of 10 bits at 4800 baud.
    expect(nowS - samples[0]!.atS).toBeCloseTo((25 * 10) / 4800, 9);
  });

  it('that says nothing at all is silent', async () => {
    const { proven } = feedOf(instrumentOf('clino'));
    const code = faultOf(proven);
    await vi.advanceTimersByTimeAsync(6000);
    expect(await code).toBe('serial-silent');
  });
});
