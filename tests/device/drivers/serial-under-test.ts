import { EventEmitter } from 'node:events';
import { vi } from 'vitest';
import { Fault, type FaultCode } from '#core/fault/fault.ts';
import type { Mounting } from '#core/sample/certificate.ts';
import { HeelConversion } from '#core/sample/heel.ts';
import type { Channel, SampleBlock } from '#core/sample/stream-item.ts';
import { withCrc } from '#device/bus/modbus-frame.ts';
import { ModbusFeed } from '#device/drivers/modbus-feed.ts';
import { NmeaFeed } from '#device/drivers/nmea-feed.ts';
import { checksumOf } from '#device/drivers/nmea-sentence.ts';
import type { SerialFeed, SerialSample } from '#device/drivers/serial-feed.ts';
import { machineClock } from '#device/machine-clock.ts';
import { type ModbusRtuLine, type NmeaLine, serialLine } from '#device/serial-outfit.ts';
import { SerialWatch } from '#device/serial-watch.ts';
import type { Transport } from '#device/transport.ts';
import type { Trouble, UnderTest } from './under-test.ts';

const MOUNTING: Mounting = {
  instrument: 'one',
  label: 'One',
  kind: 'inclinometer',
  sign: 1,
  spanM: null,
  heightOverRollAxisM: 0,
  settlingS: 1,
};
const STUCK_AFTER_S = 1;
const PERIOD_S = 0.1;
const common = {
  ...{ instrument: 'one', mounting: MOUNTING, certificate: null },
  stuckAfterS: STUCK_AFTER_S,
};

class FarEnd extends EventEmitter implements Transport {
  answer: (asked: Uint8Array) => Uint8Array | null = () => null;
  write(bytes: Uint8Array): boolean {
    const said = this.answer(bytes);
    if (said !== null) setImmediate(() => this.emit('data', said));
    return true;
  }
  close(done?: () => void): void {
    done?.();
  }
  say(text: string): void {
    this.emit('data', Buffer.from(text));
  }
}

/** Heels and faults of samples, by the watch of the station and the conversion of the receiver. */
function judged(channels: readonly Channel[], samples: readonly SerialSample[]) {
  const watch = new SerialWatch(channels, {
    where: 'a line one',
    spanM: null,
    stuckAfterS: STUCK_AFTER_S,
  });
  const watched = samples.map(({ counts, atS }) => watch.look(counts, atS).counts);
  const block: SampleBlock = {
    ...{ type: 'samples', stream: 's/one/1', number: 1, v: 1, firstSequence: 0, firstBoardUs: 0 },
    stepUs: watched.map((_, k) => (k === 0 ? 0 : PERIOD_S * 1e6)),
    columns: channels.map((_, c) => watched.map((counts) => counts[c]!.count)),
    faults: watched.flatMap((counts, k) =>
      counts.flatMap(({ fault }, c): [number, number, FaultCode][] =>
        fault === null ? [] : [[k, c, fault]],
      ),
    ),
    skipped: 0,
    arrivedStationS: 0,
  };
  const conversion = new HeelConversion({ channels, periodUs: PERIOD_S * 1e6 }, [
    { mounting: MOUNTING, certificate: null },
  ]);
  const [heel] = conversion.convert(block);
  const faults = [
    ...block.faults.map(([, , code]) => code),
    ...heel!.faults.map(([, code]) => code),
  ];
  return { heelDeg: heel!.heelDeg, faults };
}

interface Listened {
  readonly samples: SerialSample[];
  readonly told: FaultCode[];
}

function listenerOf(): Listened & { sample(s: SerialSample): void; tell(f: Fault): void } {
  const samples: SerialSample[] = [];
  const told: FaultCode[] = [];
  return {
    samples,
    told,
    sample: (sample) => samples.push(sample),
    tell: (fault) => told.push(fault.code),
  };
}

async function refusalOf(act: Promise<unknown>): Promise<FaultCode | null> {
  try {
    await act;
    return null;
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
}

/** Heel of the last of some samples. */
const lastHeel = (channels: readonly Channel[], { samples }: Listened) =>
  judged(channels, samples).heelDeg.at(-1) ?? null;

const CANNOT =
  'a sentence does not say which instrument sent it; another name is another transducer';

/** By sentences in a time of their own. */
function nmeaUnderTest(
  sentence: 'XDR' | 'PASHR',
  bodyOf: (heelDeg: number, k: number) => string,
): UnderTest {
  const begin = () => {
    const line = new FarEnd();
    let nowS = 0;
    const clock = { monotonicS: () => nowS, wallMs: () => 0 };
    const settings = serialLine.parse({
      ...{ port: 'COM7', name: 'one', protocol: 'nmea-0183' },
      instruments: [{ ...common, sentence }],
    });
    const feed = new NmeaFeed(line, settings as NmeaLine, clock);
    const listener = listenerOf();
    let said = 0;
    const say = (heelDeg: number) => {
      nowS += PERIOD_S;
      said += 1;
      const body = bodyOf(heelDeg, said);
      line.say(`$${body}*${checksumOf(body)}\r\n`);
    };
    return { line, feed, listener, say };
  };
  const proven = async ({ feed, listener, say }: ReturnType<typeof begin>) => {
    const opening = feed.prove(listener);
    for (let k = 0; k < 9; k++) say(0);
    const { channels } = await opening;
    feed.start();
    return channels;
  };
  return {
    name: `nmea-0183 ${sentence}`,
    stepDeg: 0.001,
    toleranceDeg: 0.0005,
    rangeDeg: 60,
    heelDegAt: async (heels) => {
      const far = begin();
      const channels = await proven(far);
      return heels.map((heelDeg) => {
        far.say(heelDeg);
        return lastHeel(channels, far.listener);
      });
    },
    faultWhen: async (trouble) => {
      const far = begin();
      if (trouble === 'no-answer') {
        vi.useFakeTimers();
        const refused = refusalOf(far.feed.prove(far.listener));
        await vi.runAllTimersAsync();
        vi.useRealTimers();
        return refused;
      }
      const channels = await proven(far);
      if (trouble === 'short-reply') far.line.say(`$${bodyOf(1, 99).slice(0, 9)}$`);
      if (trouble === 'stuck-value') for (let k = 0; k < 12; k++) far.say(1);
      if (trouble === 'saturated') far.say(178);
      return far.listener.told[0] ?? judged(channels, far.listener.samples).faults[0] ?? null;
    },
    called: {
      'no-answer': 'serial-silent',
      'short-reply': 'nmea-malformed',
      'stuck-value': 'chip-stuck',
      'wrong-identity': { cannot: CANNOT },
      saturated: 'chip-saturated',
    },
  };
}

const REGISTERS = { heel: 100, identity: 7 } as const;
const SERIAL_NUMBER = 4711;

/** A slave in memory that answers by the protocol, from registers. */
function modbusBegin() {
  const line = new FarEnd();
  const far = { milliDegrees: 0, serialNumber: SERIAL_NUMBER, silent: false, cut: false };
  line.answer = (asked) => {
    if (far.silent) return null;
    const [unit = 0, code = 0, high = 0, low = 0] = asked;
    const register = high * 256 + low;
    const bits = far.milliDegrees >>> 0;
    const values =
      register === REGISTERS.identity ? [far.serialNumber] : [bits >>> 16, bits & 0xffff];
    const bytes = values.flatMap((value) => [value >>> 8, value & 0xff]);
    const reply = withCrc([unit, code, bytes.length, ...bytes]);
    return far.cut ? reply.subarray(0, -1) : reply;
  };
  const settings = serialLine.parse({
    ...{ port: 'COM8', name: 'one', protocol: 'modbus-rtu', pollMs: 20, deadlineMs: 150 },
    baudRate: 115_200,
    instruments: [
      {
        ...common,
        unit: 3,
        identity: [
          { table: 'holding', register: REGISTERS.identity, type: 'uint16', equals: SERIAL_NUMBER },
        ],
        columns: [
          {
            ...{ quantity: 'heel', table: 'input', register: REGISTERS.heel, type: 'int32' },
            ...{ scale: 0.001, unit: 'deg', least: -90, most: 90 },
          },
        ],
      },
    ],
  });
  const clocks = { station: machineClock, machine: machineClock };
  const feed: SerialFeed = new ModbusFeed(line, settings as ModbusRtuLine, clocks);
  return { far, feed, listener: listenerOf() };
}

async function until(holds: () => boolean): Promise<void> {
  for (let k = 0; k < 400 && !holds(); k++) await new Promise((resolve) => setTimeout(resolve, 5));
}

const modbusUnderTest: UnderTest = {
  name: 'modbus-rtu',
  stepDeg: 0.001,
  toleranceDeg: 0.0005,
  rangeDeg: 60,
  heelDegAt: async (heels) => {
    const { far, feed, listener } = modbusBegin();
    const { channels } = await feed.prove(listener);
    feed.start();
    const read: (number | null)[] = [];
    for (const heelDeg of heels) {
      far.milliDegrees = Math.round(heelDeg * 1000);
      const two = listener.samples.length + 2;
      await until(() => listener.samples.length >= two);
      read.push(lastHeel(channels, listener));
    }
    feed.stop();
    return read;
  },
  faultWhen: async (trouble: Trouble) => {
    const { far, feed, listener } = modbusBegin();
    if (trouble === 'no-answer') far.silent = true;
    if (trouble === 'short-reply') far.cut = true;
    if (trouble === 'wrong-identity') far.serialNumber = SERIAL_NUMBER + 1;
    if (trouble === 'saturated') far.milliDegrees = 90_000;
    const opening = feed.prove(listener);
    const refused = await refusalOf(opening);
    if (refused !== null) return refused;
    const { channels } = await opening;
    feed.start();
    const faultNow = () => judged(channels, listener.samples).faults[0] ?? null;
    await until(() => listener.samples.length > 0 && faultNow() !== null);
    feed.stop();
    return faultNow();
  },
  called: {
    'no-answer': 'modbus-no-answer',
    'short-reply': 'modbus-short-reply',
    'stuck-value': 'chip-stuck',
    'wrong-identity': 'chip-wrong-identity',
    saturated: 'chip-saturated',
  },
};

export const SERIAL_UNDER_TEST: readonly UnderTest[] = [
  nmeaUnderTest('XDR', (heelDeg) => `YXXDR,A,${heelDeg.toFixed(3)},D,ROLL`),
  nmeaUnderTest('PASHR', (heelDeg, k) => {
    const time = `08${String(Math.floor(k / 600)).padStart(2, '0')}${((k / 10) % 60).toFixed(2).padStart(5, '0')}`;
    return `PASHR,${time},224.19,T,${heelDeg.toFixed(3)},+00.83,+00.00,0.1,0.1,0.2,1,0`;
  }),
  modbusUnderTest,
];
