import path from 'node:path';
import type { Command } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import { defaultDataFolder } from '../data-folder.ts';
import { readOutfit } from '../outfit.ts';
import { lookAtLine, lookForBoard, type PortAnswer } from '../port-look.ts';
import { listBoardPaths } from '../transport.ts';
import { EXIT, faultWords, sayFault } from './report.ts';

interface PortsOptions {
  readonly port: string[];
  readonly name?: string;
  readonly data: string;
  readonly json?: boolean;
}

export function registerPorts(program: Command): void {
  program
    .command('ports')
    .description('the serial ports, what answers on them, and what is wrong where nothing does')
    .option('--port <name>', 'look at this port only, repeatable', collect, [])
    .option('--name <text>', 'write a name into the one board that is named with --port')
    .option('--data <folder>', 'folder with instruments.json', defaultDataFolder())
    .option('--json', 'as one JSON array')
    .addHelpText(
      'after',
      `
Examples:
  heelwright ports
  heelwright ports --port /dev/ttyUSB0 --name "aft box"

Lines that instruments.json describes are asked as described there. Where no board answers, the port
is listened at from 4800 to 115200 baud, which takes twenty seconds.
A port another program holds (a running \`heelwright log\`) cannot be looked at.
Ends with 0, with 2 on wrong usage, with 3 when a port that was named has nothing usable.`,
    )
    .action(async (options: PortsOptions) => {
      try {
        await ports(options);
      } catch (error) {
        if (!(error instanceof Fault)) throw error;
        sayFault(error.report, options.json === true);
        process.exit(EXIT.refused);
      }
    });
}

async function ports(options: PortsOptions): Promise<void> {
  const json = options.json === true;
  if (options.name !== undefined) {
    if (options.port.length !== 1 || !/^[\x20-\x7e]{1,16}$/.test(options.name)) {
      console.error('--name takes 1 to 16 plain characters and exactly one --port.');
      process.exit(EXIT.usage);
    }
  }
  const { serial } = await readOutfit(path.resolve(options.data));
  const named = options.port.length > 0;
  const described = serial.map(({ port }) => port);
  const found = named ? options.port : [...described, ...(await listBoardPaths())];
  const answers: PortAnswer[] = [];
  for (const name of new Set(found)) {
    const line = serial.find(({ port }) => port === name);
    const looksForBoard = line === undefined || options.name !== undefined;
    answers.push(
      looksForBoard ? await lookForBoard(name, options.name ?? null) : await lookAtLine(line),
    );
  }
  if (json) console.log(JSON.stringify(answers, null, 2));
  else if (answers.length === 0)
    console.log(
      'No serial port that a board could be behind. A cable for charging carries no data; the system ' +
        'tells of a new port when the right one is plugged in.',
    );
  else for (const answer of answers) say(answer);
  process.exit(named && answers.some(({ fault }) => fault !== null) ? EXIT.refused : EXIT.done);
}

function say(answer: PortAnswer): void {
  if (answer.fault === null) console.log(answerWords(answer).join('; '));
  else sayFault(answer.fault, false);
  for (const warning of answer.warnings) console.log(`  ${faultWords(warning)}`);
}

function answerWords(answer: PortAnswer): string[] {
  const { port, board, name, firmware, boardIsOurs, baudRate, chips, instruments, heard } = answer;
  if (heard.length > 0) {
    const sentences = heard.map((sentence) => `\n  ${sentence}`).join('');
    return [
      `${port}: no board, but an instrument that speaks ${firmware} at ${baudRate} baud`,
      `describe it in instruments.json, "serial"${sentences}`,
    ];
  }
  if (instruments.length > 0)
    return [`${port}: line ${board}, ${firmware} at ${baudRate} baud`, instruments.join(', ')];
  const found = chips.map(({ part, address }) => `${part} at 0x${address.toString(16)}`);
  return [
    `${port}: board ${board}${name === '' ? '' : ` "${name}"`}`,
    `firmware ${firmware}${boardIsOurs ? '' : ' (not ours)'} at ${baudRate} baud`,
    found.length === 0 ? 'no known chip' : found.join(', '),
  ];
}

function collect(value: string, before: string[]): string[] {
  return [...before, value];
}
