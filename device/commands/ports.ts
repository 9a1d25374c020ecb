import type { Command } from 'commander';
import { Fault, type FaultReport } from '#core/fault/fault.ts';
import { type ConnectedBoard, connectBoard } from '../board.ts';
import { FirmataBus } from '../bus/firmata-bus.ts';
import { ScanBus } from '../bus/scan-bus.ts';
import { findChips } from '../outfit.ts';
import { nameFromPort } from '../real-outfit.ts';
import { listBoardPaths, serialBoardPort } from '../transport.ts';
import { EXIT, sayFault } from './report.ts';

interface PortsOptions {
  readonly port: string[];
  readonly name?: string;
  readonly json?: boolean;
}

/** What is behind one port. */
interface PortAnswer {
  readonly port: string;
  readonly board: string | null;
  readonly name: string;
  readonly firmware: string;
  readonly boardIsOurs: boolean;
  readonly chips: readonly { part: string; address: number }[];
  readonly fault: FaultReport | null;
}

export function registerPorts(program: Command): void {
  program
    .command('ports')
    .description('the serial ports, and what answers on them')
    .option('--port <name>', 'look at this port only, repeatable', collect, [])
    .option('--name <text>', 'write a name into the one board that is named with --port')
    .option('--json', 'as one JSON array')
    .addHelpText(
      'after',
      `
Examples:
  heelwright ports
  heelwright ports --port /dev/ttyUSB0 --name "aft box"

A port another program holds (a running \`heelwright log\`) cannot be looked at.
Ends with 0, with 2 on wrong usage, with 3 when a port that was named has no usable board.`,
    )
    .action((options: PortsOptions) => ports(options));
}

async function ports(options: PortsOptions): Promise<void> {
  const json = options.json === true;
  if (options.name !== undefined) {
    if (options.port.length !== 1 || !/^[\x20-\x7e]{1,16}$/.test(options.name)) {
      console.error('--name takes 1 to 16 plain characters and exactly one --port.');
      process.exit(EXIT.usage);
    }
  }
  const named = options.port.length > 0;
  const names = named ? options.port : await listBoardPaths();
  const answers: PortAnswer[] = [];
  for (const name of names) answers.push(await lookAt(name, options.name ?? null));
  if (json) console.log(JSON.stringify(answers, null, 2));
  else if (answers.length === 0) console.log('No serial port that a board could be behind.');
  else for (const answer of answers) say(answer);
  process.exit(named && answers.some(({ fault }) => fault !== null) ? EXIT.refused : EXIT.done);
}

/** Tries each rate; the last fault counts when none finds a board. */
async function lookAt(name: string, rename: string | null): Promise<PortAnswer> {
  const port = serialBoardPort(name);
  let fault: FaultReport | null = null;
  for (const baudRate of port.baudRates) {
    try {
      const connected = await connectBoard(port, baudRate);
      try {
        return await ask(connected, name, rename);
      } finally {
        await connected.close();
      }
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      fault = error.report;
      if (error.code === 'port-not-open') break;
    }
  }
  return { port: name, board: null, name: '', firmware: '', boardIsOurs: false, chips: [], fault };
}

async function ask(
  { io, isOurs, firmware }: ConnectedBoard,
  port: string,
  rename: string | null,
): Promise<PortAnswer> {
  const ignore = { frame: () => undefined, malformed: () => undefined };
  const scanBus = isOurs ? new ScanBus(io, port, ignore) : null;
  if (scanBus === null && rename !== null) {
    throw new Fault('board-not-ours', port, 'only our firmware keeps a name');
  }
  const identity = rename === null ? await scanBus?.identify() : await scanBus?.rename(rename);
  const board = identity?.board ?? nameFromPort(port);
  const chips = await findChips(new FirmataBus(io, port), board);
  return {
    port,
    board,
    name: identity?.name ?? '',
    firmware,
    boardIsOurs: isOurs,
    chips: chips.map(({ driver, address }) => ({ part: driver.part, address })),
    fault: null,
  };
}

function say({ port, board, name, firmware, boardIsOurs, chips, fault }: PortAnswer): void {
  if (fault !== null) {
    sayFault(fault, false);
    return;
  }
  const found = chips.map(({ part, address }) => `${part} at 0x${address.toString(16)}`);
  console.log(
    [
      `${port}: board ${board}${name === '' ? '' : ` "${name}"`}`,
      `firmware ${firmware}${boardIsOurs ? '' : ' (not ours)'}`,
      found.length === 0 ? 'no known chip' : found.join(', '),
    ].join('; '),
  );
}

function collect(value: string, before: string[]): string[] {
  return [...before, value];
}
