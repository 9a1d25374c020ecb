import { spawn } from 'node:child_process';
import { chmod, mkdtemp, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { SerialPort } from 'serialport';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checksumOf } from '#device/drivers/nmea-sentence.ts';
import { startRig } from '#device/emulated/rig.ts';
import { machineClock } from '#device/machine-clock.ts';
import { startSlave } from '#tests/support/modbus-slave.ts';
import { hasSocat, NO_SOCAT, SerialPair } from '#tests/support/serial-pair.ts';

const PROGRAM = path.join(process.env['HEELWRIGHT_PROGRAMS'] ?? '', 'device.mjs');
const NOBODY = 65_534;
let folder: string;
let pair: SerialPair | null;
const ends: (() => unknown)[] = [];

beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'ports-'));
  // Another user of the test below is to reach it.
  await chmod(folder, 0o755);
  pair = null;
});
afterEach(async () => {
  for (const end of ends.splice(0)) await end();
  await pair?.cut();
  await rm(folder, { recursive: true, force: true });
});

/** The real program; what it says, and how it ended. */
function ports(
  args: readonly string[],
  uid?: number,
): Promise<{ out: string; code: number | null }> {
  const all = [PROGRAM, 'ports', '--data', folder, ...args];
  const child = spawn(process.execPath, all, uid === undefined ? {} : { uid, gid: uid });
  let out = '';
  for (const stream of [child.stdout, child.stderr])
    stream?.on('data', (bytes: Buffer) => {
      out += bytes.toString();
    });
  return new Promise((resolve) => child.once('close', (code) => resolve({ out, code })));
}

async function talking(text: string): Promise<void> {
  pair = await SerialPair.open(folder);
  const line = new SerialPort({ path: pair.board, baudRate: 4800 });
  line.on('error', () => undefined);
  const timer = setInterval(() => line.write(text), 60);
  ends.push(
    () => clearInterval(timer),
    () => new Promise((resolve) => line.close(() => resolve(null))),
  );
}

const BODY = 'YXXDR,A,0.512,D,PTCH,A,-1.034,D,ROLL';
const SENTENCE = `$${BODY}*${checksumOf(BODY)}`;
const mounting = {
  ...{ instrument: 'clino', label: 'Clino', kind: 'inclinometer', sign: 1, spanM: null },
  ...{ heightOverRollAxisM: 0, settlingS: 1 },
};
const describeLine = (line: object) =>
  writeFile(
    path.join(folder, 'instruments.json'),
    JSON.stringify({ boards: [], serial: [{ name: 'tilt', port: pair?.host, ...line }] }),
  );

describe('heelwright ports', () => {
  it('shows a board with firmware, chips and rate', { timeout: 40_000 }, async (ctx) => {
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    const rig = startRig({ seed: 3, pace: 1, wall: machineClock });
    ends.push(() => rig.stop());
    pair = await SerialPair.open(folder);
    await pair.plugIn(rig, 'aft');
    const { out, code } = await ports(['--port', pair.host]);
    expect(out).toMatch(/: board [0-9a-f]{16}.*; firmware heelwright 1.0 at 115200 baud; /);
    expect(out).toContain('iis2iclx at 0x6a, ads1115 at 0x48');
    expect(code).toBe(0);
  });

  it('asks described lines as described', { timeout: 40_000 }, async (ctx) => {
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    await talking(`${SENTENCE}\r\n`);
    const instrument = { instrument: 'clino', sentence: 'XDR', mounting, certificate: null };
    await describeLine({ protocol: 'nmea-0183', instruments: [instrument] });
    expect(await ports(['--port', pair!.host])).toMatchObject({
      out: `${pair!.host}: line tilt, NMEA 0183 at 4800 baud; clino\n`,
      code: 0,
    });
  });

  it('says which exception a Modbus instrument answers with', { timeout: 20_000 }, async (ctx) => {
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    pair = await SerialPair.open(folder);
    const registers = { input: new Map(), holding: new Map(), exception: 0, silent: false };
    const slave = await startSlave(pair.board, registers);
    ends.push(() => slave.stop());
    const columns = [{ quantity: 'heel', table: 'input', register: 4, type: 'int16', unit: 'deg' }];
    const instrument = { instrument: 'clino', unit: 3, columns, mounting, certificate: null };
    await describeLine({ protocol: 'modbus-rtu', baudRate: 115_200, instruments: [instrument] });
    const { out, code } = await ports(['--port', pair.host]);
    expect(out).toContain('modbus-exception');
    expect(out).toContain('unit 3 input 4+1: exception 2: register not known');
    expect(code).toBe(3);
  });

  it('says who holds the port', { timeout: 20_000 }, async (ctx) => {
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    pair = await SerialPair.open(folder);
    const holder = new SerialPort({ path: pair.host, baudRate: 9600 });
    await new Promise((resolve) => holder.once('open', resolve));
    ends.push(() => new Promise((resolve) => holder.close(() => resolve(null))));
    const { out, code } = await ports(['--port', pair.host]);
    expect(out).toMatch(/^port-in-use: /);
    if (process.platform === 'linux') expect(out).toContain(`(process ${process.pid})`);
    expect(code).toBe(3);
  });

  it('says which group may open the port', { timeout: 20_000 }, async (ctx) => {
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    if (process.getuid?.() !== 0) ctx.skip('only root can start a program as somebody else');
    pair = await SerialPair.open(folder);
    await chmod(pair.host, 0o660);
    const { out, code } = await ports(['--port', pair.host], NOBODY);
    expect(out).toMatch(/^port-permission: /);
    expect(out).toMatch(/mode 660, group \w+ \(gid \d+\); this user is in groups 65534/);
    expect(code).toBe(3);
  });
});
