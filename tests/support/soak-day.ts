import { join } from 'node:path';
import type { SessionState } from '#core/session/session.ts';
import { marramTest } from '#device/emulated/marram.ts';
import { ALL_QUIET } from '#device/emulated/simulated-world.ts';
import { BadNetwork } from './bad-network.ts';
import { ASKED_FOR_MEMORY, type MemoryFigures, ProcessMemory } from './process-memory.ts';
import { type Program, pause, startProgram, until } from './programs.ts';
import { invited, receiverStarted } from './receiver-access.ts';
import { ScreenClient } from './screen-client.ts';
import { ACT_WITHIN_MS, SoakArchitect } from './soak-architect.ts';
import {
  type FromSoakStation,
  MOST_PACE_ASKED,
  type SoakScan,
  type ToSoakStation,
} from './soak-messages.ts';
import { SoakSource, STEP_S } from './soak-source.ts';

export interface SoakSettings {
  readonly folder: string;
  readonly seed: number;
  /** Virtual seconds at sample level. */
  readonly lastsS: number;
  /** Virtual seconds to one of the wall, at most: the chain holds less where it must. */
  readonly pace: number;
  /** Shifts made at sample level, spread over the day; at most eight. */
  readonly shifts: number;
  /** Virtual seconds at chip level after it, by the real board side on emulated boards; 0: none. */
  readonly chipsS: number;
}

export interface MemoryMark {
  readonly share: number;
  readonly receiver: MemoryFigures;
  readonly station: MemoryFigures;
}

export interface SoakOutcome {
  readonly record: string;
  /** The state as a screen had it at the end, parsed from its message. */
  readonly liveState: SessionState;
  readonly marks: readonly MemoryMark[];
  readonly chips: { readonly first: MemoryFigures; readonly last: MemoryFigures } | null;
  /** Scans handed to the station, of every board. */
  readonly scans: number;
  /** Scans the station put into its streams. */
  readonly sampled: number;
  /** What the station told of, by code. */
  readonly faults: Readonly<Record<string, number>>;
  readonly readings: number;
  readonly paceHeld: number;
}

const SCREENS = 10;
const CHIP_PACE = 20;
/** The station is not run ahead of what it could send: over this the day waits. */
const MOST_HELD_BYTES = 4_000_000;
/** Steps on their way to the station. */
const MOST_AHEAD = 8;
/** Cables and boards pulled in turn over the day. */
const MISHAPS = 12;
const CUT_WALL_MS = 400;
const UNPLUGGED_S = 20;
/** A due time this far back is not made up for. */
const MOST_LATE_MS = 200;
/**
 * Before a shift, when the half hour kept of a state is as full as it gets: so figures compare.
 * Full it is from the second on; a short day does not fill it.
 */
const MARKS = [0.06, 0.24, 0.49, 0.74, 0.99] as const;

/**
 * A long day of three boards in virtual time, with a real receiver, ten screens, a board side in a
 * process of its own, shifts and readings, pulled cables and boards; then some minutes of the real
 * board side on emulated chips in the same record.
 */
export class SoakDay {
  readonly #settings: SoakSettings;
  readonly #record: string;
  readonly #source: SoakSource;
  readonly #running: Program[] = [];
  readonly #screens: ScreenClient[] = [];
  readonly #faults: Record<string, number> = {};
  readonly #marks: MemoryMark[] = [];
  readonly #unpluggedUntilS = new Map<string, number>();
  #network: BadNetwork | null = null;
  #takenS = 0;
  #heldBytes = 0;
  #scans = 0;
  #sampled = -1;
  #ready = false;
  #dueMs = 0;
  #architect: SoakArchitect | null = null;
  #isConducted = false;

  constructor(settings: SoakSettings) {
    this.#settings = settings;
    this.#record = join(settings.folder, 'soak.hwr');
    this.#source = new SoakSource(settings.seed);
  }

  async run(): Promise<SoakOutcome> {
    const receiver = this.#start('receiver', [
      ...['receive', '--paced', '--record', this.#record, '--port', '0'],
      ...['--data', this.#settings.folder],
    ]);
    const { port, pair } = await receiverStarted(receiver);
    const station = await this.#openStation(port, pair[1] ?? '');
    for (let k = 0; k < SCREENS; k += 1)
      this.#screens.push(await ScreenClient.connect(port, k === 0 ? 'architect' : 'witness'));
    const memories = {
      receiver: await ProcessMemory.of(receiver),
      station: await ProcessMemory.of(station),
    };
    const beganMs = performance.now();
    const architect = new SoakArchitect(this.#screens[0]!, this.#settings, () => this.#source.nowS);
    this.#architect = architect;
    const conducted = architect.conduct().finally(() => {
      this.#isConducted = true;
    });
    await Promise.all([this.#pass(station, memories), conducted]);
    const paceHeld = this.#source.nowS / ((performance.now() - beganMs) / 1000);
    tell(station, { type: 'finish' });
    await until('the station is done', () => this.#sampled >= 0, ACT_WITHIN_MS);
    const chips = this.#settings.chipsS > 0 ? await this.#chips(port, architect) : null;
    const liveState = await architect.closeTest();
    for (const memory of Object.values(memories)) memory.close();
    const code = await receiver.stop();
    if (code !== 0) throw new Error(`the receiver ended with ${code}: ${receiver.said}`);
    return {
      record: this.#record,
      liveState,
      marks: this.#marks,
      chips,
      scans: this.#scans,
      sampled: this.#sampled,
      faults: this.#faults,
      readings: architect.readings,
      paceHeld,
    };
  }

  async close(): Promise<void> {
    for (const screen of this.#screens) screen.close();
    this.#network?.close();
    for (const program of this.#running) await program.kill();
  }

  #start(name: 'receiver' | 'device' | 'soak-station', args: readonly string[]): Program {
    const program = startProgram(name, args, ASKED_FOR_MEMORY);
    this.#running.push(program);
    return program;
  }

  async #openStation(receiverPort: number, code: string): Promise<Program> {
    this.#network = await BadNetwork.listen(receiverPort);
    const station = this.#start('soak-station', []);
    station.child.on('message', (message: FromSoakStation) => this.#hear(message));
    const { seed, folder, pace } = this.#settings;
    const { periodUs, boards, mountings, certificates, world } = this.#source;
    tell(station, {
      type: 'open',
      dataFolder: join(folder, 'station'),
      receiverUrl: this.#network.url,
      code,
      mountings,
      certificates,
      simulated: {
        simulation: {
          ...{ seed, paceAsked: MOST_PACE_ASKED, paceHeld: pace, disturbances: ALL_QUIET },
          truth: world.status(0).truth,
        },
        test: marramTest(),
      },
      periodUs,
      boards,
    });
    await until('the station is open', () => this.#ready);
    return station;
  }

  #hear(message: FromSoakStation): void {
    if (message.type === 'ready') this.#ready = true;
    else if (message.type === 'taken') {
      this.#takenS = message.untilS;
    } else if (message.type === 'held') this.#heldBytes = message.bytes;
    else if (message.type === 'simulate') this.#source.command(message.order);
    else if (message.type === 'finished')
      this.#sampled = message.unsent === 0 ? message.samples : 0;
    else this.#faults[message.code] = (this.#faults[message.code] ?? 0) + 1;
  }

  /** Lets the day pass, with its mishaps, and reads the memory on the way. */
  async #pass(
    station: Program,
    memories: { readonly receiver: ProcessMemory; readonly station: ProcessMemory },
  ): Promise<void> {
    const { lastsS } = this.#settings;
    const source = this.#source;
    const marks = [...MARKS];
    let mishap = 0;
    // A last reading that is late is waited for: without time nothing would become steady.
    while (source.nowS < lastsS || !this.#isConducted) {
      await this.#inTime();
      const scans = this.#pluggedIn(source.next());
      this.#scans += scans.length;
      const { carrying, settledState } = source.world.status(source.nowS);
      tell(station, { type: 'scans', untilS: source.nowS, scans, carrying, settledState });
      if (source.nowS > ((mishap + 0.7) * lastsS) / MISHAPS) {
        mishap += 1;
        this.#mishap(station, mishap);
      }
      if (marks[0] === undefined || source.nowS < marks[0] * lastsS) continue;
      this.#marks.push({
        share: marks.shift() ?? 1,
        receiver: await memories.receiver.figures(),
        station: await memories.station.figures(),
      });
    }
  }

  /** Waits until the next step is due at the pace of the moment, and while the station is behind. */
  async #inTime(): Promise<void> {
    const pace = this.#architect?.pace ?? this.#settings.pace;
    this.#dueMs = Math.max(this.#dueMs, performance.now() - MOST_LATE_MS) + (STEP_S / pace) * 1000;
    const earlyMs = this.#dueMs - performance.now();
    if (earlyMs > 4) await pause(earlyMs);
    const ahead = () => this.#source.nowS - this.#takenS > MOST_AHEAD * STEP_S;
    while (ahead() || this.#heldBytes > MOST_HELD_BYTES) await pause(5);
  }

  #mishap(station: Program, number: number): void {
    const network = this.#network!;
    if (number % 2 === 1) {
      network.refuses = true;
      network.cut(number % 4 === 1 ? 'rst' : 'fin');
      setTimeout(() => {
        network.refuses = false;
      }, CUT_WALL_MS);
      return;
    }
    const { board } = this.#source.boards[(number / 2) % this.#source.boards.length]!;
    this.#unpluggedUntilS.set(board, this.#source.nowS + UNPLUGGED_S);
    tell(station, { type: 'unplugged', board });
  }

  /** A board that is not plugged in sends nothing; nothing is lost of what it does not send. */
  #pluggedIn(scans: readonly SoakScan[]): SoakScan[] {
    for (const [board, untilS] of this.#unpluggedUntilS)
      if (this.#source.nowS > untilS) this.#unpluggedUntilS.delete(board);
    return scans.filter(({ board }) => !this.#unpluggedUntilS.has(board));
  }

  /** The real board side on emulated boards in the same record, and one more shift read with it. */
  async #chips(
    port: number,
    architect: SoakArchitect,
  ): Promise<{ first: MemoryFigures; last: MemoryFigures }> {
    const { seed, folder, chipsS } = this.#settings;
    const { screen } = architect;
    const device = this.#start('device', [
      ...['log', '--emulated', '--seed', `${seed}`, '--pace', `${CHIP_PACE}`],
      ...['--data', join(folder, 'chips'), '--receiver', `ws://127.0.0.1:${port}/device`],
      ...['--pair', (await invited(port, 'device')).code],
    ]);
    const memory = await ProcessMemory.of(device);
    const isConnected = () => screen.live?.simulation?.connected === true;
    await until('the emulated boards are there', isConnected);
    const beganS = screen.live!.receiverS;
    const passedS = () => screen.live!.receiverS - beganS;
    await until('half a minute', () => passedS() > 30, ACT_WITHIN_MS);
    const first = await memory.figures();
    await architect.lastShift();
    await until('the minutes at chip level', () => passedS() > chipsS, 600_000);
    const last = await memory.figures();
    memory.close();
    await device.stop();
    await until('the emulated boards are gone', () => !isConnected());
    return { first, last };
  }
}

function tell(station: Program, message: ToSoakStation): void {
  station.child.send(message);
}
