import { sha256Hex } from '#core/digest/sha-256.ts';
import { utf8FromText } from '#core/digest/utf-8.ts';
import { type ChainHead, chainAfter, EMPTY_CHAIN } from '#core/record/chain.ts';
import type { LineBody, LineKind, Role } from '#core/record/line.ts';
import { lineBytes } from '#core/record/write-line.ts';

export const PLACE = (yM: number) => ({ xM: 8, yM, zM: 2.4 });

export const TEST_BODY: LineBody<'test-opened'> = {
  test: 'lines',
  vessel: 'Marram',
  at: 'Kettle Sound',
  mode: 'demo',
  particulars: {
    displacementT: 46,
    displacementUncertaintyT: 0.2,
    kmM: 3,
    kmUncertaintyM: 0.01,
    metacentreMovementM: null,
    gmGuessM: 0.9,
    gmGuessUncertaintyM: 0.2,
    beamM: 5,
    lengthM: 16,
  },
  weights: [
    { weight: 'A', massT: 0.25, massUncertaintyT: 0.0005, certificate: 'W1', at: PLACE(-2) },
    { weight: 'B', massT: 0.25, massUncertaintyT: 0.0005, certificate: 'W2', at: PLACE(2) },
  ],
  distanceUncertaintyM: 0.003,
  plan: [{ moves: [{ weight: 'A', to: PLACE(2) }] }, { moves: [{ weight: 'A', to: PLACE(-2) }] }],
};

export const STREAM = 'station-1/board-1/1';

export const OPENED_BODY: LineBody<'stream-opened'> = {
  type: 'stream-opened',
  stream: STREAM,
  number: 0,
  v: 1,
  station: 'station-1',
  run: 'run-1',
  board: 'board-1',
  boardIsOurs: true,
  resetCounter: 1,
  port: 'emulated',
  firmware: 'test',
  periodUs: 20_000,
  channels: ['x', 'y', 'temperature'].map((quantity) => ({
    instrument: 'fore',
    quantity,
    part: 'iis2iclx',
  })),
  openedStationS: 0,
};

/** A block of `count` samples that begins at sequence `first`. */
export function blockBody(number: number, first: number, count = 10): LineBody<'samples'> {
  const column = (value: number) => Array.from({ length: count }, () => value);
  return {
    type: 'samples',
    stream: STREAM,
    number,
    v: 1,
    firstSequence: first,
    firstBoardUs: first * 20_000,
    stepUs: [0, ...column(20_000).slice(1)],
    columns: [column(0), column(100), column(0)],
    faults: [],
    skipped: 0,
    arrivedStationS: (first + count) * 0.02,
  };
}

export function readingBody(state: number, heelDeg = 0.5): LineBody<'reading'> {
  const measured = { heelDeg, standardErrorDeg: 0.002, degreesOfFreedom: 9 };
  return {
    state,
    estimator: 'test',
    fromS: 0,
    toS: 60,
    countedS: 60,
    joined: measured,
    instruments: [
      { ...measured, instrument: 'fore', label: 'Fore', certificate: 'C1', sampleRateHz: 10 },
    ],
    rollPeriodS: 4,
    dampingRatio: 0.03,
  };
}

/** Writes the lines of a small record in memory, as a receiver would. */
export class RecordLines {
  readonly lines: Uint8Array[] = [];
  chain: ChainHead = EMPTY_CHAIN;
  nowS = 0;

  constructor() {
    this.add('record-opened', { record: 'test-record', format: 1, program: 'test' }, 'receiver');
  }

  add<K extends LineKind>(kind: K, body: LineBody<K>, role: Role = 'architect'): number {
    this.nowS += 1;
    const bytes = lineBytes(this.chain, {
      kind,
      wall: new Date(1_800_000_000_000 + this.nowS * 1000).toISOString(),
      receiverS: this.nowS,
      author: role,
      role,
      bodyText: JSON.stringify(body),
    });
    this.lines.push(bytes);
    this.chain = chainAfter(this.chain, bytes, sha256Hex);
    return this.lines.length - 1;
  }

  get bytes(): Buffer {
    return Buffer.concat(this.lines);
  }
}

export function bytesOf(text: string): Uint8Array {
  return utf8FromText(text);
}
