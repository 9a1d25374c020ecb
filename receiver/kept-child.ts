import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { Fault } from '#core/fault/fault.ts';
import type { ReceiveSaid } from './commands/receive.ts';
import { MACHINE_CLOCK } from './machine-clock.ts';

const AGAIN_AFTER_MS = 500;
const MOST_SAID_BYTES = 16 * 1024;
const START_WITHIN_MS = 60_000;
/** A child that died this often in a row without a minute of life has a cause that waiting does not mend. */
const MOST_DEATHS = 10;
const ALIVE_AFTER_S = 60;
/** Given to end by itself before it is made to. */
const STOP_WITHIN_MS = 5000;

/** Program and arguments; `port` is the one the program had before, null at its first start. */
export type ChildCommand = (port: number | null) => readonly [URL, readonly string[]];

/** What a receiver that has started says of itself. */
export type Started = ReceiveSaid & { readonly port: number };

/**
 * A child program that is started again when it dies. Its standard input is a pipe of ours, so
 * that it can end when we are gone. A receiver has started when it prints its line of JSON; the
 * board side, which prints none, when it runs.
 */
export class KeptChild {
  readonly #name: 'receiver' | 'device';
  readonly #command: ChildCommand;
  #child: ChildProcess | null = null;
  #stopping = false;
  #port: number | null = null;
  #deaths = 0;

  constructor(name: 'receiver' | 'device', command: ChildCommand) {
    this.#name = name;
    this.#command = command;
  }

  /** Starts a board side; it has started when it runs. */
  run(): void {
    this.#spawn();
  }

  /** Starts a receiver; resolves with what it says. Throws `program-died` when it ends before. */
  start(): Promise<Started> {
    const child = this.#spawn();
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => reject(died(this.#name, 'no address')), START_WITHIN_MS);
      child.once('exit', (code, signal) => {
        clearTimeout(timer);
        if (this.#port === null) {
          this.#stopping = true;
          reject(died(this.#name, `ended with ${code ?? signal}`));
        }
      });
      let printed = '';
      child.stdout?.on('data', (bytes: Buffer) => {
        if (this.#port !== null) return;
        printed = (printed + bytes.toString('utf8')).slice(-MOST_SAID_BYTES);
        const said = /^\{.*\}$/m.exec(printed)?.[0];
        if (said === undefined) return;
        clearTimeout(timer);
        const started = JSON.parse(said) as ReceiveSaid;
        this.#port = Number(new URL(started.address).port);
        resolve({ ...started, port: this.#port });
      });
    });
  }

  /** From now on its end is wanted, whoever asked for it: Ctrl-C reaches the children as well. */
  letEnd(): void {
    this.#stopping = true;
  }

  /** Asks it to end, and after five seconds makes it; resolves when it has. */
  async stop(): Promise<void> {
    this.letEnd();
    const child = this.#child;
    if (child === null) return;
    const gone = once(child, 'exit');
    // On Windows a signal would end it at once; the end of its input asks there too.
    child.stdin?.end();
    if (process.platform !== 'win32') child.kill('SIGTERM');
    const timer = setTimeout(() => child.kill('SIGKILL'), STOP_WITHIN_MS);
    await gone;
    clearTimeout(timer);
  }

  #spawn(): ChildProcess {
    const [program, args] = this.#command(this.#port);
    const startedS = MACHINE_CLOCK.monotonicS();
    const child = spawn(process.execPath, [fileURLToPath(program), ...args], {
      // What the board side prints goes nowhere: a pipe to us would break, and kill it, before it
      // could end in order when we are killed.
      stdio: ['pipe', this.#name === 'receiver' ? 'pipe' : 'ignore', 'inherit'],
    });
    this.#child = child;
    // What the receiver prints is not passed on, but must be read, or it would wait.
    child.stdout?.resume();
    // The pipe breaks when the child dies, which 'exit' tells as well.
    child.stdin?.on('error', () => {});
    child.once('exit', (code, signal) => {
      this.#child = null;
      if (this.#stopping || (this.#name === 'receiver' && this.#port === null)) return;
      this.#deaths = MACHINE_CLOCK.monotonicS() - startedS > ALIVE_AFTER_S ? 1 : this.#deaths + 1;
      console.error(`${this.#name} ended with ${code ?? signal}; it is started again`);
      if (this.#deaths > MOST_DEATHS) process.exit(1);
      setTimeout(() => {
        if (!this.#stopping) this.#spawn();
      }, AGAIN_AFTER_MS);
    });
    return child;
  }
}

function died(name: string, found: string): Fault {
  return new Fault('program-died', name, found);
}
