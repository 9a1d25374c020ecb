import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { SerialPort } from 'serialport';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { lookForBoard } from '#device/port-look.ts';
import { hasSocat, NO_SOCAT, SerialPair } from '#tests/support/serial-pair.ts';

const PATIENCE = { boardMs: 800, listenMs: 200 };
const SENTENCE = '$YXXDR,A,0.512,D,PTCH,A,-1.034,D,ROLL*70';
let folder: string;
let pair: SerialPair | null = null;
let line: SerialPort | null = null;
let timer: NodeJS.Timeout | null = null;

beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'look-'));
});
afterEach(async () => {
  if (timer !== null) clearInterval(timer);
  await new Promise((resolve) => (line === null ? resolve(null) : line.close(resolve)));
  await pair?.cut();
  await rm(folder, { recursive: true, force: true });
  [line, timer, pair] = [null, null, null];
});

async function lookWhile(text: string | null) {
  const open = await SerialPair.open(folder);
  pair = open;
  const far = new SerialPort({ path: open.board, baudRate: 4800 });
  line = far;
  far.on('error', () => undefined);
  if (text !== null) timer = setInterval(() => far.write(text, 'latin1'), 40);
  return lookForBoard(open.host, null, PATIENCE);
}

it('hears an instrument nobody has described, and shows its sentence', async (ctx) => {
  if (!hasSocat()) ctx.skip(NO_SOCAT);
  expect(await lookWhile(`${SENTENCE}\r\n$YXXDR,A,9,D,ROLL*00\r\n`)).toMatchObject({
    ...{ board: null, firmware: 'NMEA 0183', baudRate: 4800, heard: [SENTENCE], fault: null },
  });
});

it('says that bytes make no sense at any rate', async (ctx) => {
  if (!hasSocat()) ctx.skip(NO_SOCAT);
  const { fault, heard } = await lookWhile('\u00ff\u0001~$garbled*00\r\n');
  expect(fault).toMatchObject({ code: 'port-baud' });
  expect(heard).toEqual([]);
});

it('says that not a byte comes', async (ctx) => {
  if (!hasSocat()) ctx.skip(NO_SOCAT);
  const { fault } = await lookWhile(null);
  expect(fault).toMatchObject({ code: 'board-silent', found: 'not a byte at any rate' });
});
