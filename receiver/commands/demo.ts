import { randomInt } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { KeptChild } from '../kept-child.ts';
import { DEFAULT_PORT, programFile } from '../program.ts';
import { guarded } from './common.ts';
import { DEFAULT_DATA_FOLDER, networkWords, newRecordPath, portOf } from './receive.ts';
import { scanRecordFile } from './verify.ts';

interface DemoOptions {
  readonly port: number;
  readonly pace: number;
  readonly seed?: number;
  readonly data: string;
  readonly record?: string;
  readonly lan?: boolean;
  readonly tls?: boolean;
  readonly json?: boolean;
}

const MOST_SEED = 2 ** 31 - 1;
const FASTEST_PACE = 50;

export function registerDemo(program: Command): void {
  program
    .command('demo')
    .description('a whole day without hardware: emulated boards on a simulated vessel')
    .option('--pace <times>', 'how many times faster than the wall, 1 to 50', paceOf, 1)
    .option('--seed <number>', 'the same number, the same day (default: drawn)', seedOf)
    .option('--port <number>', 'port of the screen (TLS: one up)', portOf, DEFAULT_PORT)
    .option('--lan', 'let other machines on the network in: the witness only, unless --tls')
    .option('--tls', 'TLS as well, for every role on other machines')
    .option('--data <folder>', 'folder of the records and the station', DEFAULT_DATA_FOLDER)
    .option('--record <file>', 'go on with this record, and its seed (default: a new one)')
    .option('--json', 'say where it runs, and what it is refused with, as a line of JSON')
    .addHelpText('after', '\nExample:\n  heelwright demo --pace 20 --seed 7')
    .action((options: DemoOptions) => guarded(options.json === true, () => demo(options)));
}

/**
 * The receiver and the board side as two programs of their own, as on a real dock, each started
 * again when it dies. The address is printed last, when the screen can be opened.
 */
async function demo(options: DemoOptions): Promise<void> {
  const seed = options.seed ?? seedOfRecord(options.record) ?? randomInt(1, MOST_SEED);
  const record = options.record ?? newRecordPath(options.data);
  const receiver = new KeptChild('receiver', (again) => [
    programFile('receiver'),
    [
      'receive',
      '--paced',
      '--supervised',
      '--json',
      ...(options.lan ? ['--lan'] : []),
      ...(options.tls ? ['--tls'] : []),
      ...['--data', options.data],
      ...['--record', record],
      '--port',
      String(again ?? options.port),
    ],
  ]);
  const started = await receiver.start();
  const device = new KeptChild('device', () => [
    programFile('device'),
    [
      'log',
      '--emulated',
      '--supervised',
      ...['--receiver', `ws://127.0.0.1:${started.port}/device`],
      ...['--pair', started.boards],
      ...['--pace', String(options.pace)],
      ...['--seed', String(seed)],
      ...['--data', join(options.data, 'station')],
    ],
  ]);
  device.run();
  // The board side first, so that the receiver still takes what it has in hand.
  const stop = () => {
    device.letEnd();
    receiver.letEnd();
    void device.stop().then(() => receiver.stop());
  };
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
  const { address } = started;
  const { pace } = options;
  if (options.json) console.log(JSON.stringify({ ...started, seed, pace }));
  else
    console.log(
      [`Seed: ${seed}, pace: ${pace}`, ...networkWords(started), `Record: ${record}`, address].join(
        '\n',
      ),
    );
}

/** A record goes on with the vessel it has; null where there is none yet. */
function seedOfRecord(record: string | undefined): number | null {
  if (record === undefined || !existsSync(record)) return null;
  let seed: number | null = null;
  // Whether its lines hold is for the receiver to say, which opens it next.
  scanRecordFile(record, ({ line }) => {
    if (line.kind === 'simulation') seed = line.body.seed;
  });
  return seed;
}

function paceOf(text: string): number {
  const pace = Number(text);
  if (!(pace >= 1 && pace <= FASTEST_PACE))
    throw new InvalidArgumentError(`a number from 1 to ${FASTEST_PACE}.`);
  return pace;
}

function seedOf(text: string): number {
  const seed = Number(text);
  if (!Number.isInteger(seed) || seed < 0 || seed > MOST_SEED)
    throw new InvalidArgumentError(`a whole number from 0 to ${MOST_SEED}.`);
  return seed;
}
