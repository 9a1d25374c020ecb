import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import path from 'node:path';
import { SerialPort } from 'serialport';
import type { Rig, Transport } from '#device/emulated/rig-types.ts';
import { until } from './programs.ts';

const SOCAT = 'socat';
export const NO_SOCAT = 'socat is not installed: the serial port itself was not tested';

/** Are there pseudo-terminals to test with? */
export function hasSocat(): boolean {
  return spawnSync(SOCAT, ['-V']).status === 0;
}

/** Two ends of one line, as pseudo-terminals, with an emulated board at one of them or not. */
export class SerialPair {
  readonly board: string;
  readonly host: string;
  readonly #socat: ChildProcess;
  #plugged: { transport: Transport; line: SerialPort } | null = null;

  private constructor(folder: string, name: string) {
    this.board = path.join(folder, `${name}-board`);
    this.host = path.join(folder, `${name}-host`);
    const end = (link: string) => `pty,raw,echo=0,link=${link}`;
    // In a process group of its own: socat's child would hold the line if only socat died.
    this.#socat = spawn(SOCAT, [end(this.board), end(this.host)], {
      detached: true,
      stdio: 'ignore',
    });
  }

  /** Resolves when both ends are there. */
  static async open(folder: string, name = 'line'): Promise<SerialPair> {
    const pair = new SerialPair(folder, name);
    await until('both ends of the line', () => existsSync(pair.board) && existsSync(pair.host));
    return pair;
  }

  /** Joins an emulated board to its end of the line. */
  async plugIn(rig: Rig, name: string): Promise<void> {
    const board = rig.boards.find((candidate) => candidate.name === name);
    if (board === undefined) throw new Error(`no board ${name}`);
    const transport = board.open();
    const line = new SerialPort({ path: this.board, baudRate: 115_200 });
    line.on('error', () => undefined);
    transport.on('error', () => undefined);
    await Promise.all([
      new Promise((resolve) => line.once('open', resolve)),
      new Promise((resolve) => transport.once('open', resolve)),
    ]);
    transport.on('data', (bytes: Buffer) => line.write(bytes));
    line.on('data', (bytes: Buffer) => transport.write(bytes));
    this.#plugged = { transport, line };
  }

  /** Pulls the cable: the line is gone for both ends. */
  async cut(): Promise<void> {
    const { pid } = this.#socat;
    if (this.#socat.exitCode === null && this.#socat.signalCode === null && pid !== undefined) {
      const gone = new Promise((resolve) => this.#socat.once('exit', resolve));
      process.kill(-pid, 'SIGKILL');
      await gone;
    }
    await Promise.all([this.board, this.host].map((link) => rm(link, { force: true })));
    const plugged = this.#plugged;
    this.#plugged = null;
    if (plugged === null) return;
    const { transport, line } = plugged;
    await new Promise<void>((resolve) => transport.close(() => resolve()));
    if (line.isOpen) await new Promise<void>((resolve) => line.close(() => resolve()));
  }
}
