import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { testOpened } from '#core/record/line.ts';
import { ESTIMATOR } from '#core/steadiness/watch.ts';
import { lanAddresses } from '../access/addresses.ts';
import type { TlsCertificate } from '../access/tls-certificate.ts';
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
  readonly lan?: boolean;
  readonly tls?: boolean;
  readonly json?: boolean;
  readonly silentAfter: number;
}

/** What `receive --json` prints, in one line, when the screen can be opened. */
export interface ReceiveSaid {
  readonly record: string;
  /** Opens the screen as architect, once. */
  readonly address: string;
  /** Lets a board side in, once: `log --pair`. */
  readonly boards: string;
  readonly lan: readonly { readonly interface: string; readonly url: string }[];
  readonly tls: {
    readonly port: number;
    readonly fingerprint: string;
    readonly keyFingerprint: string;
  } | null;
}

/** A station gone for a sixth of that is told of in the record; less is taken up again by itself. */
const LOST_IN_SILENCES = 6;

/** Where records are kept when no folder is named. */
export const DEFAULT_DATA_FOLDER = join(homedir(), '.heelwright');

export function registerReceive(program: Command): void {
  program
    .command('receive')
    .description('run the receiver and its screen, for real boards')
    .option('--port <number>', 'port of the screen (TLS: one up)', portOf, DEFAULT_PORT)
    .option('--lan', 'let other machines on the network in: the witness only, unless --tls')
    .option('--tls', 'TLS as well, for every role on other machines; its certificate is kept')
    .option('--data <folder>', 'folder of the records, and of who may come in', DEFAULT_DATA_FOLDER)
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
  const lan = options.lan === true || options.tls === true;
  makeOwnFolder(options.data);
  const dock = await openDock({
    recordPath: options.record ?? newRecordPath(options.data),
    port: options.port,
    version: programVersion(),
    screenFolder: screenFolder(),
    machine: MACHINE_CLOCK,
    paced: options.paced ?? false,
    test: options.test === undefined ? null : inputFromFile(testOpened, options.test),
    estimator: ESTIMATOR,
    folder: options.data,
    lan,
    tls: options.tls === true ? await certificateIn(options.data) : null,
    silentAfterS: options.silentAfter,
    warn,
  });
  const laptop = watchLaptop(dock, {
    machine: MACHINE_CLOCK,
    warn,
    linkLostAfterS: options.silentAfter / LOST_IN_SILENCES,
  });
  endWith(dock, laptop, options.supervised ?? false);
  const said = whatToSay(dock, lan);
  console.log(options.json ? JSON.stringify(said) : wordsOf(said).join('\n'));
}

function whatToSay(dock: Dock, lan: boolean): ReceiveSaid {
  const { access, port, tls, tlsPort } = dock;
  const plain = lanAddresses().map(({ interface: name, address }) => ({
    interface: name,
    url: `http://${address}:${port}/`,
  }));
  return {
    record: dock.record.path,
    address: `http://127.0.0.1:${port}/#${access.codeAtStart('architect')}`,
    boards: access.codeAtStart('device'),
    lan: lan ? plain : [],
    tls:
      tls === null || tlsPort === null
        ? null
        : { port: tlsPort, fingerprint: tls.fingerprint, keyFingerprint: tls.keyFingerprint },
  };
}

/** The address stands last, so that it is found, and opened, at once. */
function wordsOf(said: ReceiveSaid): string[] {
  return [
    `Record: ${said.record}`,
    `Boards on this machine, once: heelwright log --pair ${said.boards}`,
    ...networkWords(said),
    'Screen, for the architect; opens once:',
    said.address,
  ];
}

/** Where other machines reach it; nothing where they cannot. */
export function networkWords({ lan, tls }: Pick<ReceiveSaid, 'lan' | 'tls'>): string[] {
  return [
    ...lan.map(({ interface: name, url }) => `On the network (${name}): ${url}`),
    ...(tls === null
      ? []
      : [
          `TLS on port ${tls.port}, certificate SHA-256 ${tls.fingerprint}`,
          `Boards on another machine pin its key: --pin ${tls.keyFingerprint}`,
        ]),
  ];
}

/** Loaded when asked for: making certificates is a large library, and most days want none. */
async function certificateIn(folder: string): Promise<TlsCertificate> {
  const { tlsCertificate } = await import('../access/tls-certificate.ts');
  const addresses = lanAddresses().map(({ address }) => address);
  return await tlsCertificate(folder, addresses, MACHINE_CLOCK.wallMs());
}

/** A record of its own for each day begun, named by when. */
export function newRecordPath(folder: string): string {
  makeOwnFolder(folder);
  const stamp = new Date(MACHINE_CLOCK.wallMs()).toISOString().replace(/[:.]/g, '-');
  return join(folder, `${stamp}.hwr`);
}

function makeOwnFolder(folder: string): void {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
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
