import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { Bus } from '#device/bus/bus.ts';
import { findChips, NO_OUTFIT, readOutfit } from '#device/outfit.ts';
import { nameFromPort, realOutfit } from '#device/real-outfit.ts';
import { faultOf } from './support/scripted-bus.ts';

const MOUNTING = {
  instrument: 'aft',
  label: 'Aft',
  kind: 'inclinometer',
  sign: 1,
  spanM: null,
  heightOverRollAxisM: 0.4,
  settlingS: 1,
};
const AFT = {
  instrument: 'aft',
  part: 'iis2iclx',
  address: 0x6a,
  mounting: MOUNTING,
  certificate: null,
};
const OUTFIT = { names: { COM7: 'old-uno' }, boards: [{ board: '0102', instruments: [AFT] }] };

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'outfit-'));
});
afterEach(async () => {
  await rm(folder, { recursive: true, force: true });
});
const write = (text: string) => writeFile(path.join(folder, 'instruments.json'), text);

describe("the technician's file", () => {
  it('may be absent', async () => {
    expect(await readOutfit(folder)).toEqual(NO_OUTFIT);
  });

  it('says what stands on which board, and what boards of others are called', async () => {
    await write(JSON.stringify(OUTFIT));
    const outfit = realOutfit(await readOutfit(folder));
    expect(outfit.expected('0102', 'any')).toMatchObject([{ instrument: 'aft', address: 0x6a }]);
    expect(outfit.expected('0304', 'any')).toBeNull();
    expect(outfit.mountings).toEqual([MOUNTING]);
    expect(outfit.certificates).toEqual([]);
    expect(outfit.nameOf('COM7')).toBe('old-uno');
    expect(outfit.nameOf('/dev/ttyUSB0')).toBe('port-dev-ttyUSB0');
  });

  it('refuses an instrument, a line or a port that stands twice', async () => {
    const line = {
      port: 'COM9',
      name: 'tilt',
      protocol: 'nmea-0183',
      instruments: [{ instrument: 'aft', sentence: 'XDR', mounting: MOUNTING, certificate: null }],
    };
    await write(JSON.stringify({ ...OUTFIT, serial: [line] }));
    expect(await faultOf(readOutfit(folder))).toBe('input-contradiction');
    const other = {
      ...line.instruments[0]!,
      instrument: 'mid',
      mounting: { ...MOUNTING, instrument: 'mid' },
    };
    await write(JSON.stringify({ ...OUTFIT, serial: [{ ...line, instruments: [other] }] }));
    const outfit = realOutfit(await readOutfit(folder));
    expect(outfit.lineOf?.('COM9')).toMatchObject({ name: 'tilt', baudRate: 4800 });
    expect(outfit.lineOf?.('COM8')).toBeNull();
    expect(outfit.mountings.map(({ instrument }) => instrument)).toEqual(['aft', 'mid']);
  });

  it.each([
    ['input-not-json', '{'],
    ['input-shape', '{"boards":[{}]}'],
    ['input-shape', JSON.stringify({ ...OUTFIT, extra: 1 })],
    [
      'input-shape',
      JSON.stringify({ boards: [{ board: 'a', instruments: [{ ...AFT, part: 'abacus' }] }] }),
    ],
    [
      'input-shape',
      JSON.stringify({ boards: [{ board: 'a', instruments: [{ ...AFT, address: 200 }] }] }),
    ],
  ])('is refused with %s: %s', async (code, text) => {
    await write(text);
    expect(await faultOf(readOutfit(folder))).toBe(code);
  });
});

describe('parts that go together, and parts that do not', () => {
  const TUBE = {
    instrument: 'tube',
    part: 'abp2',
    address: 0x28,
    starboardAddress: 0x38,
    mounting: {
      ...MOUNTING,
      instrument: 'tube',
      kind: 'water-tube',
      spanM: 8,
      asBuilt: { pressureRangePa: [0, 6000] },
    },
    certificate: null,
  };
  const ADXL355 = { ...AFT, part: 'adxl355', address: 0x1d };
  const named = (instrument: string, change: object) => ({
    ...AFT,
    instrument,
    mounting: { ...MOUNTING, instrument },
    ...change,
  });
  const read = async (...instruments: object[]) => {
    await write(JSON.stringify({ boards: [{ board: '0102', instruments }] }));
    return realOutfit(await readOutfit(folder));
  };

  it('takes every part where it can stand', async () => {
    await read(AFT, TUBE);
    await read(ADXL355);
    await read(named('second', { part: 'lsm6dso', address: 0x6b }), AFT);
    const { asBuilt: _, ...plain } = TUBE.mounting;
    await read({
      ...TUBE,
      part: 'mpx5010',
      address: 0x48,
      starboardAddress: 0x49,
      mounting: plain,
    });
  });

  it('makes two chips of two legs, the port one first', async () => {
    const chips = (await read(TUBE)).expected('0102', 'any');
    expect(chips?.map(({ instrument, address, leg }) => [instrument, address, leg])).toEqual([
      ['tube', 0x28, 'port'],
      ['tube', 0x38, 'starboard'],
    ]);
  });

  it('leaves an ADXL355 alone on its bus, and says why', async () => {
    for (const other of [named('b', {}), TUBE, named('b', { part: 'adxl355', address: 0x53 })]) {
      const refused = await read(ADXL355, other).catch((error: unknown) => error);
      expect(refused).toMatchObject({ code: 'bus-not-alone' });
      expect((refused as Fault).message).toMatch(/adxl355\) beside .*: it acknowledges bytes/);
    }
  });

  it.each([
    ['an address the part cannot have', { ...AFT, address: 0x48 }],
    ['one leg of two', { ...TUBE, starboardAddress: undefined }],
    ['two chips of what is one', { ...AFT, starboardAddress: 0x6b }],
    ['both legs at one address', { ...TUBE, starboardAddress: 0x28 }],
    ['legs mounted as an inclinometer', { ...TUBE, mounting: { ...MOUNTING, instrument: 'tube' } }],
    ['a tube without span', { ...TUBE, mounting: { ...TUBE.mounting, spanM: null } }],
    ['a pressure of no known range', { ...TUBE, mounting: { ...TUBE.mounting, asBuilt: {} } }],
    ["another's mounting", { ...AFT, instrument: 'fore' }],
  ])('refuses %s', async (_, instrument) => {
    expect(await faultOf(read(instrument))).toBe('input-shape');
  });

  it('refuses two chips at one address of a board', async () => {
    expect(await faultOf(read(AFT, named('other', { part: 'lsm6dso' })))).toBe('input-shape');
  });
});

describe('looking for chips', () => {
  const chipAt = (address: number, register: number, bytes: number[]): Bus => ({
    read: (at, from) =>
      at === address && from === register
        ? Promise.resolve(Uint8Array.from(bytes))
        : Promise.reject(new Fault('bus-no-answer', 'test', 'nobody')),
    write: () => Promise.reject(new Error('looking writes nothing')),
  });

  it('finds a known chip by its identity and names it by where it is', async () => {
    const found = await findChips(chipAt(0x6b, 0x0f, [0x6b]), '0123456789abcdef');
    expect(found.map(({ instrument, address }) => [instrument, address])).toEqual([
      ['01234567-iis2iclx-0x6b', 0x6b],
    ]);
  });

  it('finds nothing on an empty bus, and no other chip at the same address', async () => {
    expect(await findChips(chipAt(0x10, 0, [0]), 'board')).toEqual([]);
    expect(await findChips(chipAt(0x6a, 0x0f, [0x69]), 'board')).toEqual([]);
  });

  it('gives up when the board is lost', async () => {
    const lost: Bus = {
      read: () => Promise.reject(new Fault('board-lost', 'test', 'gone')),
      write: () => Promise.resolve(),
    };
    expect(await faultOf(findChips(lost, 'board'))).toBe('board-lost');
  });
});

it('a port makes a name a stream can carry', () => {
  for (const port of ['COM7', '/dev/ttyUSB0', '/dev/cu.usbserial-1410', '\\\\.\\COM12']) {
    expect(nameFromPort(port)).toMatch(/^[0-9A-Za-z-]{1,40}$/);
  }
});
