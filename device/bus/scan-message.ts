import { Fault } from '#core/fault/fault.ts';
import { checkOf, packBody, unpackBody } from './packed-body.ts';

/** The scan messages of our firmware; their meaning stands in hardware/firmware/README.md, "The scan". */
export const SCAN_COMMAND = 0x0a;
export const SCAN_VERSION = 1;
export const SHORTEST_PERIOD_US = 2000;
export const MOST_STEPS = 16;

const SUB = { query: 0, clear: 1, step: 2, start: 3, stop: 4, name: 5 } as const;

export interface ScanStep {
  readonly address: number;
  /** Null: the chip has none, none is sent. */
  readonly register: number | null;
  readonly readCount: number;
  readonly write: readonly number[];
  readonly when: 'always' | 'even' | 'odd';
  /** What is read was set going by the frame before; the board marks it failed where that failed. */
  readonly fromFrameBefore: boolean;
}

export interface BoardIdentity {
  /** The board's random identity, 16 hex digits. */
  readonly board: string;
  readonly resetCounter: number;
  readonly startCause: number;
  readonly name: string;
}

export interface ScanState {
  readonly state: number;
  readonly steps: number;
  readonly stepsCheck: number;
  readonly periodUs: number;
}

export interface ScanFrame {
  /** 16 bit, wrapping. */
  readonly sequence: number;
  /** 32 bit, wrapping: board time at the tick that began the round. */
  readonly boardUs: number;
  readonly durationUs: number;
  readonly failedSteps: number;
  /** Frames left out since the start, 16 bit, wrapping. */
  readonly leftOut: number;
  readonly bus: number;
  readonly boardStart: string;
  readonly resetCounterLow: number;
  readonly bytes: Uint8Array;
}

export type ScanReply =
  | { readonly kind: 'identity'; readonly identity: BoardIdentity }
  | { readonly kind: 'state'; readonly state: ScanState }
  | { readonly kind: 'frame'; readonly frame: ScanFrame };

export const BUS_BITS = {
  addressNotAcknowledged: 1,
  byteNotAcknowledged: 2,
  timeLimit: 4,
  dataFreed: 8,
  stillHeld: 16,
  frameBeforeLacked: 32,
} as const;

export const STATE_WORDS = [
  'scan runs',
  'stopped',
  'list empty',
  'list broken',
  'period out of range',
  'bus clock unknown',
] as const;

export const queryMessage = (): number[] => [SCAN_COMMAND, SUB.query];
export const clearMessage = (): number[] => [SCAN_COMMAND, SUB.clear];
export const stopMessage = (): number[] => [SCAN_COMMAND, SUB.stop];

export function stepMessage(step: ScanStep): number[] {
  return [SCAN_COMMAND, SUB.step, ...packBody(stepBody(step))];
}

/** Bus clock 400 kHz, which every chip here takes. */
export function startMessage(periodUs: number): number[] {
  return [SCAN_COMMAND, SUB.start, ...packBody([...u32(periodUs), 1])];
}

/** At most 16 printable ASCII characters; throws a RangeError otherwise. */
export function nameMessage(name: string): number[] {
  if (!/^[\x20-\x7e]{0,16}$/.test(name))
    throw new RangeError('a board name has 0 to 16 characters');
  return [SCAN_COMMAND, SUB.name, ...packBody([...Buffer.from(name, 'latin1')])];
}

/** Check over all steps, as the board's state repeats it when the list arrived whole. */
export function stepsCheck(steps: readonly ScanStep[]): number {
  return checkOf(steps.flatMap(stepBody));
}

function stepBody(step: ScanStep): number[] {
  const phase = { even: 1, odd: 2, always: 3 }[step.when];
  const options = phase | (step.fromFrameBefore ? 4 : 0) | (step.register === null ? 8 : 0);
  return [
    step.address,
    options,
    step.register ?? 0,
    step.readCount,
    step.write.length,
    ...step.write,
  ];
}

/** Reads what comes after the command byte. Throws `scan-malformed`. */
export function readScanReply(data: readonly number[], where: string): ScanReply {
  const body = unpackBody(data.slice(1), where);
  switch (data[0]) {
    case 0x40:
      return { kind: 'identity', identity: identityOf(body, where) };
    case 0x41:
      return { kind: 'state', state: stateOf(body, where) };
    case 0x42:
      return { kind: 'frame', frame: frameOf(body, where) };
    default:
      throw new Fault('scan-malformed', where, `message ${data[0]}`);
  }
}

function identityOf(body: Uint8Array, where: string): BoardIdentity {
  const view = viewOf(body, 24, where);
  if (view.getUint8(0) !== SCAN_VERSION) {
    throw new Fault('scan-malformed', where, `version ${view.getUint8(0)} of the scan messages`);
  }
  const nameLength = view.getUint8(23);
  if (body.length !== 24 + nameLength) {
    throw new Fault('scan-malformed', where, `name of ${nameLength} in ${body.length} bytes`);
  }
  return {
    board: Buffer.from(body.subarray(1, 9)).toString('hex'),
    resetCounter: view.getUint32(9, true),
    startCause: view.getUint8(13),
    name: Buffer.from(body.subarray(24)).toString('latin1'),
  };
}

function stateOf(body: Uint8Array, where: string): ScanState {
  const view = viewOf(body, 10, where);
  return {
    state: view.getUint8(0),
    steps: view.getUint8(1),
    stepsCheck: view.getUint16(4, true),
    periodUs: view.getUint32(6, true),
  };
}

function frameOf(body: Uint8Array, where: string): ScanFrame {
  const view = viewOf(body, 17, where);
  return {
    sequence: view.getUint16(0, true),
    boardUs: view.getUint32(2, true),
    durationUs: view.getUint16(6, true),
    failedSteps: view.getUint16(8, true),
    leftOut: view.getUint16(10, true),
    bus: view.getUint8(12),
    boardStart: Buffer.from(body.subarray(13, 15)).toString('hex'),
    resetCounterLow: view.getUint16(15, true),
    bytes: body.subarray(17),
  };
}

function viewOf(body: Uint8Array, least: number, where: string): DataView {
  if (body.length < least) throw new Fault('scan-malformed', where, `${body.length} bytes`);
  return new DataView(body.buffer, body.byteOffset, body.byteLength);
}

function u32(value: number): number[] {
  return [0, 8, 16, 24].map((shift) => (value >>> shift) & 0xff);
}
