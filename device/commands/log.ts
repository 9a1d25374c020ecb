import path from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import { defaultDataFolder, makeDataFolder } from '../data-folder.ts';
import { startRig } from '../emulated/rig.ts';
import { FASTEST_PACE, SLOWEST_PACE } from '../emulated/rig-types.ts';
import {
  eepromKeeper,
  emulatedOutfit,
  emulatedPorts,
  readEeproms,
  SimulatedVesselLink,
} from '../emulated-station.ts';
import { USUAL_SILENT_AFTER_S } from '../link.ts';
import { machineClock } from '../machine-clock.ts';
import { readOutfit } from '../outfit.ts';
import { realOutfit } from '../real-outfit.ts';
import { DEFAULT_RECEIVER_URL, receiverAddress } from '../receiver-address.ts';
import { MOST_SPOOL_BYTES, Station } from '../station.ts';
import { listBoardPaths, serialBoardPort } from '../transport.ts';
import { EXIT, reporter, sayFault } from './report.ts';

const LOOK_FOR_PORTS_MS = 1000;
const STATUS_EVERY_MS = 100;
/** Given at the end to a receiver that answers, so that nothing is left in the spool. */
const LAST_WAIT_MS = 3000;
const BYTES_A_MEGABYTE = 1024 * 1024;
const MOST_SEED = 2 ** 31 - 1;

interface LogOptions {
  readonly port: string[];
  readonly receiver: string;
  readonly data: string;
  readonly emulated?: boolean;
  readonly seed: number;
  readonly pace: number;
  readonly rate: number;
  readonly uncalibrated: string[];
  readonly silentAfter: number;
  readonly room: number;
  readonly supervised?: boolean;
  readonly pair?: string;
  readonly pin?: string;
  readonly json?: boolean;
}

export function registerLog(program: Command): void {
  program
    .command('log')
    .description('read the boards, keep every sample on disk until the receiver has it')
    .option(
      '--port <name>',
      'serial port of a board, repeatable (default: every USB port)',
      collect,
      [],
    )
    .option('--receiver <address>', 'the receiver', DEFAULT_RECEIVER_URL)
    .option('--pair <code>', 'invitation to the receiver, once; what it gives is kept')
    .option('--pin <sha-256>', "key of the receiver's TLS certificate, as it prints it")
    .option('--rate <scans>', 'scans a second of boards with our firmware, 10 to 200', rateOf, 50)
    .option('--data <folder>', 'folder of this station: identity, spool', defaultDataFolder())
    .option(
      '--room <megabytes>',
      'most disk for samples the receiver does not have yet, 0.5 to 100000',
      roomOf,
      MOST_SPOOL_BYTES / BYTES_A_MEGABYTE,
    )
    .option('--emulated', 'two emulated boards on a simulated vessel instead of real ones')
    .option('--seed <number>', 'with --emulated: the same number, the same day', seedOf, 1)
    .option('--pace <times>', 'with --emulated: faster than the wall, 1 to 50', paceOf, 1)
    .option('--uncalibrated <instrument>', 'with --emulated: leave a certificate out', collect, [])
    .option(
      '--silent-after <seconds>',
      'give up a receiver that is silent for so long, 2 to 120',
      silentAfterOf,
      USUAL_SILENT_AFTER_S,
    )
    .option('--supervised', 'end when standard input ends')
    .option('--json', 'say what happens as lines of JSON')
    .addHelpText(
      'after',
      `
Examples:
  heelwright log                              every board on USB, receiver on this machine
  heelwright log --port /dev/ttyUSB0 --port /dev/ttyUSB1
  heelwright log --emulated --seed 7 --pace 5

instruments.json in the data folder says what stands on which board, and which lines have instruments
that speak NMEA 0183 or Modbus RTU (hardware/README.md); those lines are opened beside the boards.

Ends with 0 when told to stop, 2 on wrong usage, 3 when something given cannot be used.`,
    )
    .action(async (options: LogOptions) => {
      try {
        await log(options);
      } catch (error) {
        if (!(error instanceof Fault)) throw error;
        sayFault(error.report, options.json === true);
        process.exit(EXIT.refused);
      }
    });
}

async function log(options: LogOptions): Promise<void> {
  const stopped = whenStopped(options.supervised === true);
  const receiverUrl = receiverAddress(options.receiver);
  const dataFolder = path.resolve(options.data);
  await makeDataFolder(dataFolder);
  const pairing = { code: options.pair ?? null, pin: options.pin?.toLowerCase() ?? null };
  const places = { dataFolder, receiverUrl, pairing };
  const stop = options.emulated
    ? await logEmulated(options, places)
    : await logReal(options, places);
  await stopped;
  await stop();
  process.exit(EXIT.done);
}

interface Places {
  readonly dataFolder: string;
  readonly receiverUrl: string;
  readonly pairing: { readonly code: string | null; readonly pin: string | null };
}

async function logReal(options: LogOptions, places: Places): Promise<() => Promise<void>> {
  const described = await readOutfit(places.dataFolder);
  const outfit = realOutfit(described);
  const station = await Station.open({
    ...places,
    clocks: { station: machineClock, machine: machineClock },
    report: reporter(options.json === true),
    scanHz: options.rate,
    silentAfterS: options.silentAfter,
    mostSpoolBytes: options.room * BYTES_A_MEGABYTE,
    outfit,
  });
  for (const name of options.port) station.keep(serialBoardPort(name));
  if (options.port.length > 0) return () => station.stop(LAST_WAIT_MS);
  for (const { port } of described.serial) station.keep(serialBoardPort(port));
  const look = (): void => {
    void listBoardPaths().then(
      (names) => {
        for (const name of names) station.keep(serialBoardPort(name));
      },
      // A system that cannot list its ports now is asked again a second later.
      () => undefined,
    );
  };
  look();
  const looking = setInterval(look, LOOK_FOR_PORTS_MS);
  return async () => {
    clearInterval(looking);
    await station.stop(LAST_WAIT_MS);
  };
}

async function logEmulated(options: LogOptions, places: Places): Promise<() => Promise<void>> {
  const { seed, pace } = options;
  const rig = startRig({
    seed,
    pace,
    wall: machineClock,
    eeproms: await readEeproms(places.dataFolder),
    onEeprom: eepromKeeper(places.dataFolder),
    onFailure: (error) => {
      throw error;
    },
  });
  const vessel = new SimulatedVesselLink(rig, { seed, pace });
  const station = await Station.open({
    ...places,
    clocks: { station: rig.clock, machine: machineClock },
    report: reporter(options.json === true),
    scanHz: options.rate,
    silentAfterS: options.silentAfter,
    mostSpoolBytes: options.room * BYTES_A_MEGABYTE,
    outfit: emulatedOutfit(seed, options.uncalibrated),
    simulated: () => vessel.declare(),
    simulate: (order) => vessel.obey(order),
  });
  for (const port of emulatedPorts(rig)) station.keep(port);
  const telling = setInterval(() => station.link.sendNow(vessel.status()), STATUS_EVERY_MS);
  return async () => {
    clearInterval(telling);
    await station.stop(LAST_WAIT_MS);
    await rig.stop();
  };
}

/** Resolves when a person, the system or the program that started this one wants it to end. */
function whenStopped(supervised: boolean): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
      process.once(signal, () => resolve());
    }
    if (!supervised) return;
    process.stdin.on('end', () => resolve());
    process.stdin.on('error', () => resolve());
    process.stdin.resume();
  });
}

function collect(value: string, before: string[]): string[] {
  return [...before, value];
}

function seedOf(text: string): number {
  const seed = Number(text);
  if (Number.isInteger(seed) && seed >= 0 && seed <= MOST_SEED) return seed;
  throw new InvalidArgumentError(`a whole number from 0 to ${MOST_SEED}.`);
}

/** Slower ones would leave gaps to the smoothing, faster ones the converter no time. */
function rateOf(text: string): number {
  const rate = Number(text);
  if (Number.isInteger(rate) && rate >= 10 && rate <= 200) return rate;
  throw new InvalidArgumentError('a whole number from 10 to 200.');
}

/** Shorter, a busy moment would count as a lost link; longer, nobody would be told in time. */
function silentAfterOf(text: string): number {
  const seconds = Number(text);
  if (seconds >= 2 && seconds <= 120) return seconds;
  throw new InvalidArgumentError('a number from 2 to 120.');
}

/** Less would hold little beside what is kept back for openings and faults. */
function roomOf(text: string): number {
  const megabytes = Number(text);
  if (megabytes >= 0.5 && megabytes <= 100_000) return megabytes;
  throw new InvalidArgumentError('a number from 0.5 to 100000.');
}

function paceOf(text: string): number {
  const pace = Number(text);
  if (pace >= SLOWEST_PACE && pace <= FASTEST_PACE) return pace;
  throw new InvalidArgumentError(`a number from ${SLOWEST_PACE} to ${FASTEST_PACE}.`);
}
