import { readScanReply, type ScanFrame, type ScanReply } from '#device/bus/scan-message.ts';
import type { Transport } from '#device/emulated/rig-types.ts';

/** Hears a board's messages on a transport without firmata-io. */
export class ScanEar {
  readonly replies: ScanReply[] = [];
  /** Whole messages that are no scan answers. */
  readonly other: number[][] = [];
  readonly #transport: Transport;
  readonly #nowS: () => number;
  readonly #frames: { frame: ScanFrame; arrivedS: number }[] = [];
  #open: number[] = [];

  constructor(transport: Transport, nowS: () => number = () => 0) {
    this.#transport = transport;
    this.#nowS = nowS;
    transport.on('data', (data: Uint8Array) => {
      for (const byte of data) this.#hear(byte);
    });
  }

  sysex(...bytes: number[]): void {
    this.#transport.write([0xf0, ...bytes, 0xf7]);
  }

  /** Takes the frames heard so far. */
  frames(): { frame: ScanFrame; arrivedS: number }[] {
    return this.#frames.splice(0);
  }

  #hear(byte: number): void {
    this.#open.push(byte);
    const [first, kind] = this.#open;
    if (first === 0xf0 ? byte !== 0xf7 : this.#open.length < 3) return;
    const message = this.#open;
    this.#open = [];
    if (first !== 0xf0 || kind !== 0x0a) {
      this.other.push(message);
      return;
    }
    const reply = readScanReply(message.slice(2, -1), 'test board');
    if (reply.kind === 'frame') this.#frames.push({ frame: reply.frame, arrivedS: this.#nowS() });
    else this.replies.push(reply);
  }
}
