import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { freePort, type Program, startProgram, until } from './programs.ts';
import { receiverStarted } from './receiver-access.ts';
import { linesOf } from './record-items.ts';
import { ScreenClient } from './screen-client.ts';

/** A busy machine starts programs slowly. */
const WITHIN_MS = 40_000;

/** The real programs in a folder of their own: a receiver with a screen, board sides, one record. */
export class RealDay {
  readonly folder: string;
  readonly port: number;
  record: string;
  readonly #running: Program[] = [];
  /** What lets a board side in that has not been in before. */
  #pair: readonly string[] = [];
  #screen: ScreenClient | null = null;

  private constructor(folder: string, port: number) {
    this.folder = folder;
    this.port = port;
    this.record = join(folder, 'day.hwr');
  }

  static async begin(): Promise<RealDay> {
    return new RealDay(mkdtempSync(join(tmpdir(), 'real-day-')), await freePort());
  }

  get screen(): ScreenClient {
    if (this.#screen === null) throw new Error('no receiver was started');
    return this.#screen;
  }

  /** A receiver that runs, with a screen at it. */
  async receiver(...more: readonly string[]): Promise<Program> {
    const program = this.start('receiver', [
      ...['receive', '--record', this.record, '--port', `${this.port}`],
      ...['--data', this.folder, ...more],
    ]);
    this.#pair = (await receiverStarted(program, WITHIN_MS)).pair;
    this.#screen?.close();
    this.#screen = await ScreenClient.connect(this.port);
    return program;
  }

  start(name: 'receiver' | 'device', args: readonly string[]): Program {
    const program = startProgram(name, name === 'device' ? [...args, ...this.#pair] : args);
    this.#running.push(program);
    return program;
  }

  async twoStreams(): Promise<void> {
    await until('two streams', () => (this.screen.state?.streams ?? []).length === 2, WITHIN_MS);
    await this.flows('at first');
  }

  /** More comes to the disk. */
  async flows(when: string): Promise<void> {
    const saved = () => this.screen.live?.saved.line ?? 0;
    const before = saved();
    await until(`lines are saved ${when}`, () => saved() > before + 3, WITHIN_MS);
  }

  /** What the record says of one matter of the laptop, in order. */
  told(matter: string): { station: string | null; severity: string; found: string }[] {
    return linesOf(this.record).flatMap(({ line }) =>
      line.kind === 'laptop-state' && line.body.matter === matter ? [line.body] : [],
    );
  }

  async killAll(): Promise<void> {
    this.#screen?.close();
    for (const program of this.#running) await program.kill();
  }

  async end(): Promise<void> {
    await this.killAll();
    rmSync(this.folder, { recursive: true, force: true });
  }
}
