import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { testOpened } from '#core/record/line.ts';
import { ESTIMATOR } from '#core/steadiness/watch.ts';
import { type Dock, openDock } from '../dock.ts';
import { SILENT_AFTER_BOUNDS_S, USUAL_SILENT_AFTER_S } from '../heartbeat.ts';
import { watchLaptop } from '../laptop/laptop.ts';
import { MACHINE_CLOCK } from '../machine-clock.ts';
import { DEFAULT_PORT, programVersion, screenFolder } from '../program.ts';
import { guarded, inputFromFile } from './common.ts';

interface ReceiveOptions {
  readonly port: number;
  readonly data: string;
  readonly record?: string;
  readonly test?: string;
  readonly paced?: boolean;
  readonly supervised?: boolean;
  readonly json?: boolean;
  readonly silentAfter: number;
}

/** A station gone for a sixth of that is told of in the record; less is taken up again by itself. */
const LOST_IN_SILENCES = 6;

/** Where records are kept when no folder is named. */
export const DEFAULT_DATA_FOLDER = join(homedir(), '.heelwright');

export function registerReceive(program: Command): void {
  program
    .command('receive')
    .description('run the receiver and its screen, for real boards')
    .option('--port <number>', 'port of the screen, on this machine only', portOf, DEFAULT_PORT)
    .option('--data <folder>', 'folder of the records', DEFAULT_DATA_FOLDER)
    .option('--record <file>', 'the record to begin or go on with (default: a new one)')
    .option('--test <file>', 'the test to open in an empty record (see `schema test`)')
    .option('--paced', 'follow the clock of a simulated vessel')
    .option(
      '--silent-after <seconds>',
      'give up a connection that is silent for so long, 2 to 120',
      silentAfterOf,
      USUAL_SILENT_AFTER_S,
    )
    .option('--supervised', 'end when standard input ends')
    .option('--json', 'say where it runs, and what it is refused with, as a line of JSON')
    .addHelpText('after', '\nExample:\n  heelwright receive --test marram.json --record day.hwr')
    .action((options: ReceiveOptions) => guarded(options.json === true, () => receive(options)));
}

async function receive(options: ReceiveOptions): Promise<void> {
  const warn = (error: Error) => console.error(error.message);
  const dock = await openDock({
    recordPath: options.record ?? newRecordPath(options.data),
    port: options.port,
    version: programVersion(),
    screenFolder: screenFolder(),
    machine: MACHINE_CLOCK,
    paced: options.paced ?? false,
    test: options.test === undefined ? null : inputFromFile(testOpened, options.test),
    estimator: ESTIMATOR,
    silentAfterS: options.silentAfter,
    warn,
  });
  const laptop = watchLaptop(dock, {
    machine: MACHINE_CLOCK,
    warn,
    linkLostAfterS: options.silentAfter / LOST_IN_SILENCES,
  });
  endWith(dock, laptop, options.supervised ?? false);
  const record = dock.record.path;
  const address = `http://127.0.0.1:${dock.port}/`;
  console.log(options.json ? JSON.stringify({ record, address }) : `Record: ${record}\n${address}`);
}

/** A record of its own for each day begun, named by when. */
export function newRecordPath(folder: string): string {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const stamp = new Date(MACHINE_CLOCK.wallMs()).toISOString().replace(/[:.]/g, '-');
  return join(folder, `${stamp}.hwr`);
}

export function portOf(text: string): number {
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    throw new InvalidArgumentError('a whole number from 0 (any free port) to 65535.');
  return port;
}

/** Shorter, a busy moment would count as a lost link; longer, nobody would be told in time. */
function silentAfterOf(text: string): number {
  const seconds = Number(text);
  const { least, most } = SILENT_AFTER_BOUNDS_S;
  if (seconds >= least && seconds <= most) return seconds;
  throw new InvalidArgumentError(`a number from ${least} to ${most}.`);
}

function endWith(dock: Dock, laptop: { stop(): void }, supervised: boolean): void {
  let ending = false;
  const end = () => {
    if (ending) return;
    ending = true;
    laptop.stop();
    dock.close().then(
      () => process.exit(0),
      (error: unknown) => {
        console.error(error);
        process.exit(1);
      },
    );
  };
  process.on('SIGINT', end);
  process.on('SIGTERM', end);
  if (!supervised) return;
  // A supervisor that is killed cannot tell its children; its end of the pipe closes all the same.
  process.stdin.on('end', end);
  process.stdin.resume();
}
