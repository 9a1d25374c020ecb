import {
  clearMessage,
  readScanReply,
  type ScanFrame,
  type ScanReply,
  type ScanStep,
  startMessage,
  stepMessage,
} from '#device/bus/scan-message.ts';
import { EmulatedBoard, type EmulatedBoardSettings } from '#device/emulated/emulated-board.ts';
import { firmwareImage } from '#device/emulated/firmware-image.ts';
import type { I2cChip } from '#device/emulated/i2c.ts';

const START_SYSEX = 0xf0;
const END_SYSEX = 0xf7;
const STRING = 0x71;
const SCAN = 0x0a;
const STEP_S = 0.02;

/** A host that speaks to an emulated board in bytes, without firmata-io, and keeps what it said. */
export class BoardHost {
  readonly board: EmulatedBoard;
  /** Whole messages since asked last; a byte outside any message is one of its own. */
  #messages: number[][] = [];
  #open: number[] = [];

  constructor(settings: Partial<EmulatedBoardSettings> = {}) {
    this.board = new EmulatedBoard({
      hex: firmwareImage(),
      seed: 1,
      clockErrorPpm: 0,
      chips: [],
      ...settings,
    });
  }

  /** Lets the board live, in steps as a rig takes them. */
  run(seconds: number): void {
    const endS = this.board.reachedS + seconds;
    while (this.board.reachedS < endS) {
      this.board.runTo(Math.min(endS, this.board.reachedS + STEP_S));
      for (const { bytes } of this.board.takeOutgoing()) for (const byte of bytes) this.#hear(byte);
    }
  }

  send(...bytes: number[]): void {
    this.board.receive(Uint8Array.from(bytes));
  }

  sysex(...bytes: number[]): void {
    this.send(START_SYSEX, ...bytes, END_SYSEX);
  }

  /** Takes all messages heard so far. */
  messages(): number[][] {
    const taken = this.#messages;
    this.#messages = [];
    return taken;
  }

  /** What was heard: texts, scan answers and the rest; takes them. */
  heard(): { strings: string[]; scan: ScanReply[]; other: number[][] } {
    const strings: string[] = [];
    const scan: ScanReply[] = [];
    const other: number[][] = [];
    for (const message of this.messages()) {
      const body = message.slice(2, -1);
      if (message[0] === START_SYSEX && message[1] === STRING) strings.push(textOf(body));
      else if (message[0] === START_SYSEX && message[1] === SCAN) {
        scan.push(readScanReply(body, 'test board'));
      } else other.push(message);
    }
    return { strings, scan, other };
  }

  frames(): ScanFrame[] {
    return this.heard().scan.flatMap((reply) => (reply.kind === 'frame' ? [reply.frame] : []));
  }

  startScan(periodUs: number, steps: readonly ScanStep[]): void {
    this.sysex(...clearMessage());
    for (const step of steps) this.sysex(...stepMessage(step));
    this.sysex(...startMessage(periodUs));
  }

  #hear(byte: number): void {
    this.#open.push(byte);
    const [first] = this.#open;
    const whole = first === START_SYSEX ? byte === END_SYSEX : this.#open.length === 3;
    if (!whole) return;
    this.#messages.push(this.#open);
    this.#open = [];
  }
}

function textOf(pairs: readonly number[]): string {
  let text = '';
  for (let at = 0; at + 1 < pairs.length; at += 2) {
    text += String.fromCharCode(pairs[at]! | (pairs[at + 1]! << 7));
  }
  return text;
}

/** A chip with plain registers that increment, and a count of what came to it. */
export class PlainChip implements I2cChip {
  readonly registers = new Uint8Array(256);
  readonly writes: number[][] = [];
  starts = 0;
  #pointer = 0;
  #written: number[] = [];

  constructor(readonly address: number) {}

  begin(): boolean {
    this.starts += 1;
    this.#written = [];
    return true;
  }

  write(byte: number): boolean {
    this.#written.push(byte);
    if (this.#written.length === 1) this.#pointer = byte;
    else this.registers[this.#pointer++ & 0xff] = byte;
    return true;
  }

  read(): number {
    return this.registers[this.#pointer++ & 0xff]!;
  }

  end(): void {
    if (this.#written.length > 0) this.writes.push(this.#written);
    this.#written = [];
  }

  powerUp(): void {
    this.registers.fill(0);
  }

  settle(): void {
    // Nothing goes on inside.
  }
}

export const readStep = (address: number, register: number, readCount: number): ScanStep => ({
  address,
  register,
  readCount,
  write: [],
  when: 'always',
  fromFrameBefore: false,
});
