import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { SerialPort } from 'serialport';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Certificate } from '#core/sample/certificate.ts';
import { certificateRefusal } from '#core/sample/certificate-refusal.ts';
import { HeelConversion } from '#core/sample/heel.ts';
import type { SampleBlock, StreamOpened } from '#core/sample/stream-item.ts';
import { checksumOf } from '#device/drivers/nmea-sentence.ts';
import type { StationEvent } from '#device/events.ts';
import { machineClock } from '#device/machine-clock.ts';
import { outfitFile } from '#device/outfit.ts';
import { realOutfit } from '#device/real-outfit.ts';
import { Station } from '#device/station.ts';
import { serialBoardPort } from '#device/transport.ts';
import { type SlaveRegisters, startSlave } from '#tests/support/modbus-slave.ts';
import { hasSocat, NO_SOCAT, SerialPair } from '#tests/support/serial-pair.ts';
import { sequencesOf, TestReceiver, until } from './support/test-receiver.ts';

let folder: string;
let receiver: TestReceiver;
let events: StationEvent[];
let station: Station | null = null;
let pair: SerialPair | null = null;
const ends: (() => Promise<void> | void)[] = [];

beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'instruments-'));
  receiver = new TestReceiver();
  events = [];
});
afterEach(async () => {
  await station?.stop(0);
  for (const end of ends.splice(0)) await end();
  await pair?.cut();
  await receiver.close();
  await rm(folder, { recursive: true, force: true });
  station = null;
  pair = null;
});

const CERTIFICATE: Certificate = {
  ...{ number: 'C1', instrument: 'clino', method: 'for a test', madeBy: 'nobody' },
  ...{ date: '2026-11-24', zero: 0, scale: 1, scaleUncertainty: 0.0015, leftOver: 0 },
  ...{ temperatureC: null, points: [] },
};
const mountingOf = (instrument: string, change: object = {}) => ({
  instrument,
  label: instrument,
  kind: 'inclinometer',
  sign: 1,
  spanM: null,
  heightOverRollAxisM: 0,
  settlingS: 1,
  ...change,
});

async function keep(line: object): Promise<void> {
  const outfit = outfitFile.parse({ boards: [], serial: [line] });
  station = await Station.open({
    dataFolder: path.join(folder, 'station'),
    receiverUrl: await receiver.listen(),
    pairing: { code: 'a'.repeat(22), pin: null },
    clocks: { station: machineClock, machine: machineClock },
    report: (event) => events.push(event),
    outfit: realOutfit(outfit),
  });
  station.keep(serialBoardPort(pair!.host));
}

const streams = () => [...receiver.streams.keys()];
const itemsOf = (k: number) => receiver.items(streams()[k] ?? '');
const openedOf = (k: number) => itemsOf(k)[0] as StreamOpened;
const blocksOf = (k: number) =>
  itemsOf(k).filter((item): item is SampleBlock => item.type === 'samples');
const codes = () => events.flatMap((event) => (event.event === 'fault' ? [event.code] : []));

/** Heel of an instrument of a stream, by the conversion the receiver has. */
function heelsOf(k: number, mounting: ReturnType<typeof mountingOf>): (number | null)[] {
  const conversion = new HeelConversion(openedOf(k), [
    { mounting: mounting as never, certificate: null },
  ]);
  return blocksOf(k).flatMap((block) => conversion.convert(block)[0]?.heelDeg ?? []);
}

describe('an inclinometer that speaks NMEA 0183', () => {
  it('is a stream of its own, with what was wrong beside it', { timeout: 30_000 }, async (ctx) => {
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    pair = await SerialPair.open(folder);
    const line = new SerialPort({ path: pair.board, baudRate: 4800 });
    // Cut at the end, it may still be written to.
    line.on('error', () => undefined);
    const state = { heelDeg: 1.5, spoiled: 0, step: 3, moves: true };
    let sent = 0;
    const talking = setInterval(() => {
      sent += 1;
      // Rolling slowly by 0.2 degree, printed in so many places.
      const rolled = state.moves ? state.heelDeg + 0.2 * Math.sin(sent / 9) : state.heelDeg;
      const body = `YXXDR,A,0.1,D,PTCH,A,${rolled.toFixed(state.step)},D,ROLL`;
      const good = `$${body}*${checksumOf(body)}\r\n`;
      const text = state.spoiled > 0 ? good.replace('ROLL', 'R0LL') : good;
      if (state.spoiled > 0) state.spoiled -= 1;
      // Cut anywhere, the rest a moment later.
      const cut = sent % good.length;
      line.write(text.slice(0, cut));
      setTimeout(() => line.write(text.slice(cut)), 5);
    }, 50);
    ends.push(() => clearInterval(talking));
    ends.push(() => new Promise<void>((resolve) => line.close(() => resolve())));
    await keep({
      port: pair.host,
      name: 'tilt-aft',
      protocol: 'nmea-0183',
      baudRate: 4800,
      instruments: [
        { instrument: 'clino', sentence: 'XDR', mounting: mountingOf('clino'), certificate: null },
      ],
    });
    await until(() => sequencesOf(itemsOf(0)).length >= 30, 'thirty readings');
    expect(openedOf(0)).toMatchObject({
      board: 'tilt-aft',
      boardIsOurs: false,
      port: pair.host,
      firmware: 'NMEA 0183',
      channels: [
        { instrument: 'clino', quantity: 'heel', part: 'nmea-0183', counted: { step: 0.001 } },
      ],
    });
    expect(openedOf(0).periodUs).toBeGreaterThan(30_000);
    expect(openedOf(0).periodUs).toBeLessThan(80_000);
    const heels = heelsOf(0, mountingOf('clino'));
    expect(Math.max(...heels.map((heel) => Math.abs(heel! - 1.5)))).toBeLessThan(0.201);
    const sequences = sequencesOf(itemsOf(0));
    expect(sequences).toEqual(sequences.map((_, at) => at));

    state.spoiled = 3;
    await until(() => codes().includes('nmea-checksum'), 'the spoiled sentence');
    const before = sequencesOf(itemsOf(0)).length;
    await until(() => sequencesOf(itemsOf(0)).length > before + 10, 'sentences again');
    expect(heelsOf(0, mountingOf('clino')).every((heel) => Math.abs(heel! - 1.5) < 0.21)).toBe(
      true,
    );

    // Silent for a while: lost, and a new stream when it speaks again.
    await pair.cut();
    await until(() => itemsOf(0).at(-1)?.type === 'stream-closed', 'the loss');
    expect(itemsOf(0).at(-1)).toMatchObject({ type: 'stream-closed', reason: 'board-lost' });
    expect(receiver.broken).toEqual([]);
  });
});

describe('an inclinometer that prints more than it can tell', () => {
  it('goes on in a stream that says its true step', { timeout: 30_000 }, async (ctx) => {
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    pair = await SerialPair.open(folder);
    const line = new SerialPort({ path: pair.board, baudRate: 115_200 });
    line.on('error', () => undefined);
    let sent = 0;
    const talking = setInterval(() => {
      sent += 1;
      // Rolling by a degree, told in tenths and printed in thousandths.
      const body = `YXXDR,A,${(Math.round(10 * Math.sin(sent / 9)) / 10).toFixed(3)},D,ROLL`;
      line.write(`$${body}*${checksumOf(body)}\r\n`);
    }, 15);
    ends.push(() => clearInterval(talking));
    ends.push(() => new Promise<void>((resolve) => line.close(() => resolve())));
    await keep({
      ...{ port: pair.host, name: 'tilt-aft', protocol: 'nmea-0183', baudRate: 115_200 },
      instruments: [
        { instrument: 'clino', sentence: 'XDR', mounting: mountingOf('clino'), certificate: null },
      ],
    });
    await until(() => sequencesOf(itemsOf(1)).length >= 10, 'the second stream');
    expect(codes()).toContain('serial-coarse');
    expect(openedOf(0).channels[0]!.counted!.step).toBe(0.001);
    expect(openedOf(1).channels[0]!.counted!.step).toBeCloseTo(0.1, 9);
    expect(itemsOf(0).at(-1)).toMatchObject({ type: 'stream-closed', reason: 'wanted' });
    expect(receiver.broken).toEqual([]);
  });
});

describe('an inclinometer that speaks Modbus RTU', () => {
  const registersWith = (milliDegrees: number): SlaveRegisters => ({
    input: new Map(int32(100, milliDegrees)),
    holding: new Map([[7, 4711]]),
    exception: 0,
    silent: false,
  });
  const int32 = (register: number, value: number): [number, number][] => [
    [register, (value >>> 16) & 0xffff],
    [register + 1, value & 0xffff],
  ];
  const lineOf = (port: string) => ({
    port,
    name: 'tilt-fore',
    protocol: 'modbus-rtu',
    baudRate: 115_200,
    parity: 'none',
    pollMs: 50,
    deadlineMs: 300,
    instruments: [
      {
        instrument: 'clino',
        unit: 12,
        identity: [{ table: 'holding', register: 7, type: 'uint16', equals: 4711 }],
        columns: [
          {
            quantity: 'heel',
            table: 'input',
            register: 100,
            type: 'int32',
            scale: 0.001,
            unit: 'deg',
          },
        ],
        stuckAfterS: 1,
        mounting: mountingOf('clino', { sign: -1 }),
        certificate: null,
      },
    ],
  });

  it('is asked, proven, and each of its failures has its code', {
    timeout: 40_000,
  }, async (ctx) => {
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    pair = await SerialPair.open(folder);
    const registers = registersWith(-1500);
    const slave = await startSlave(pair.board, registers);
    ends.push(() => slave.stop());
    const rolling = setInterval(() => {
      const milliDegrees = -1500 + Math.round(100 * Math.sin(Date.now() / 800));
      if (!stuck)
        for (const [at, value] of int32(100, milliDegrees)) registers.input.set(at, value);
    }, 20);
    let stuck = false;
    ends.push(() => clearInterval(rolling));
    await keep(lineOf(pair.host));
    const count = () => sequencesOf(itemsOf(0)).length;
    await until(() => count() >= 30, 'thirty readings');
    expect(openedOf(0)).toMatchObject({
      ...{ board: 'tilt-fore', periodUs: 50_000 },
      channels: [{ part: 'modbus-rtu', address: '12', counted: { scale: 0.001, unit: 'deg' } }],
    });
    const made = { instrument: 'clino', part: 'modbus-rtu', board: 'tilt-fore', bus: 'serial' };
    const found = { board: 'tilt-fore', part: 'modbus-rtu', addresses: ['12'], seal: null };
    const refusal = (address: string) =>
      certificateRefusal({ ...CERTIFICATE, item: { ...made, address } }, found);
    expect(refusal('unit 12')).toBeNull();
    expect(refusal('unit 13')).toContain('is of address unit 13');
    const heels = heelsOf(0, mountingOf('clino', { sign: -1 }));
    expect(heels.every((heel) => heel !== null && heel > 1.39 && heel < 1.61)).toBe(true);

    const faultsSince = async (do1: () => void, code: string) => {
      do1();
      await until(() => codes().includes(code as never), code);
      const flagged = () => blocksOf(0).flatMap(({ faults }) => faults.map(([, , each]) => each));
      await until(() => flagged().includes(code as never), `${code} beside the samples`);
    };
    await faultsSince(() => (registers.exception = 6), 'modbus-exception');
    registers.exception = 0;
    await faultsSince(() => (registers.silent = true), 'modbus-no-answer');
    registers.silent = false;
    // After a fault it is proven again before it is believed.
    await faultsSince(() => {
      registers.holding.set(7, 4712);
      registers.exception = 6;
      setTimeout(() => (registers.exception = 0), 200);
    }, 'chip-wrong-identity');
    registers.holding.set(7, 4711);
    const sound = () => blocksOf(0).at(-1)?.columns[0]?.at(-1) ?? null;
    await until(() => sound() !== null, 'the right one again');
    await faultsSince(() => (stuck = true), 'chip-stuck');
    stuck = false;
    await faultsSince(() => registers.input.delete(101), 'modbus-exception');
    expect(receiver.broken).toEqual([]);
  });

  it('is not taken for another', { timeout: 20_000 }, async (ctx) => {
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    pair = await SerialPair.open(folder);
    const registers = registersWith(0);
    registers.holding.set(7, 1);
    const slave = await startSlave(pair.board, registers);
    ends.push(() => slave.stop());
    await keep(lineOf(pair.host));
    await until(() => codes().includes('chip-wrong-identity'), 'the wrong one');
    expect(streams()).toEqual([]);
  });
});
