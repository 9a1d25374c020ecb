import { createHash } from 'node:crypto';
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { chainAfter, EMPTY_CHAIN } from '#core/record/chain.ts';
import type { LineKind } from '#core/record/line.ts';
import { lineBytes } from '#core/record/write-line.ts';
import { scanRecordFile } from '#receiver/commands/verify.ts';
import { LineFollowers } from '#receiver/line-followers.ts';
import { OPENED_BODY, STREAM, TEST_BODY } from '#tests/support/record-lines.ts';
import { randomFromSeed } from '#tests/support/seeded.ts';

const HOURS = 8;
const SCAN_HZ = 50;
const BLOCK_SAMPLES = 50;
const BOARDS = 3;
const ROUNDS = 3;

export interface OpeningFigures {
  readonly bytes: number;
  readonly lines: number;
  /** Wall seconds from opening the file to the folded session, best and worst of the rounds. */
  readonly openS: readonly [number, number];
}

/** Eight hours of three boards with four channels at 50 Hz, opened as a receiver does. */
export function measureOpening(): OpeningFigures {
  const folder = mkdtempSync(join(tmpdir(), 'opening-'));
  const path = join(folder, 'day.hwr');
  try {
    const { lines } = writeEightHours(path);
    const seconds = Array.from({ length: ROUNDS }, () => openingS(path)).sort((a, b) => a - b);
    return { bytes: statSync(path).size, lines, openS: [seconds[0]!, seconds.at(-1)!] };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function openingS(path: string): number {
  const beganMs = performance.now();
  const followers = new LineFollowers();
  const { fault } = scanRecordFile(path, (read) => followers.follow(read));
  if (fault !== null) throw fault;
  return (performance.now() - beganMs) / 1000;
}

/** Writes that record; `nextBlock` and `nextSequence` are where its streams would go on. */
export function writeEightHours(path: string): {
  lines: number;
  nextBlock: number;
  nextSequence: number;
} {
  const descriptor = openSync(path, 'w', 0o600);
  const random = randomFromSeed(5);
  let chain = EMPTY_CHAIN;
  const add = (kind: LineKind, body: unknown): void => {
    const bytes = lineBytes(chain, {
      kind,
      wall: '2026-05-04T09:00:00.000Z',
      receiverS: chain.next,
      author: 'receiver',
      role: 'device',
      bodyText: JSON.stringify(body),
    });
    chain = chainAfter(chain, bytes, (each) => createHash('sha256').update(each).digest('hex'));
    writeSync(descriptor, bytes);
  };
  add('record-opened', { record: 'bench', format: 1, program: 'bench' });
  add('test-opened', TEST_BODY);
  const streams = Array.from({ length: BOARDS }, (_, k) => STREAM.replace('board-1', `board-${k}`));
  const [channel] = OPENED_BODY.channels;
  const channels = ['x', 'y', 'temperature', 'z'].map((quantity) => ({ ...channel, quantity }));
  for (const [k, stream] of streams.entries())
    add('stream-opened', { ...OPENED_BODY, stream, board: `board-${k}`, channels });
  const blocks = (HOURS * 3600 * SCAN_HZ) / BLOCK_SAMPLES;
  for (let block = 0; block < blocks; block++)
    for (const stream of streams)
      add('samples', {
        type: 'samples',
        stream,
        number: block + 1,
        v: 1,
        firstSequence: block * BLOCK_SAMPLES,
        firstBoardUs: block * BLOCK_SAMPLES * 20_000,
        stepUs: column((k) => (k === 0 ? 0 : 19_996 + Math.floor(8 * random()))),
        columns: channels.map(() => column(() => Math.floor(400 * random()) - 200)),
        faults: [],
        skipped: 0,
        arrivedStationS: block + random(),
      });
  closeSync(descriptor);
  return { lines: chain.next, nextBlock: blocks + 1, nextSequence: blocks * BLOCK_SAMPLES };
}

function column(value: (k: number) => number): number[] {
  return Array.from({ length: BLOCK_SAMPLES }, (_, k) => value(k));
}
