import { existsSync, renameSync, writeFileSync } from 'node:fs';
import type { Command } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import type { Uncertain } from '#core/quantity/uncertainty.ts';
import { coefficientByName, ROLL_COEFFICIENTS } from '#core/reduction/roll-coefficient.ts';
import { type RollHistory, rollHistory } from '#core/reduction/roll-history.ts';
import type { RollOutput } from '#core/reduction/roll-output.ts';
import { markedRun, runsOfRecord } from '#core/reduction/roll-runs.ts';
import { rollTest } from '#core/reduction/roll-test.ts';
import { EXIT, guarded, inputFromFile } from './common.ts';
import { channelsFromFile, type FileChannel } from './roll-channels.ts';
import { rollWords } from './roll-words.ts';
import { SAMPLE_FORMS } from './sample-file.ts';

interface RollOptions {
  readonly json?: boolean;
  readonly run?: readonly string[];
  readonly beam?: string;
  readonly coefficient?: string;
  readonly draught?: string;
  readonly length?: string;
  readonly gm?: string;
  readonly gmUncertainty?: string;
  readonly displacement?: string;
  readonly date?: string;
  readonly condition?: string;
  readonly history?: string;
  readonly keep?: boolean;
  readonly vessel?: string;
}

const HELP = `
${SAMPLE_FORMS}

Free roll is found by itself: stretches in which she is left to roll and the swing falls; rolling
that something drives is refused, and said why. At least three runs of about five cycles are asked
(IMO resolution A.749(18) annex 3, 3.16.1.3).

Coefficients (f in GM = (f B / T)^2; f of a vessel lies within about 0.05 of them, GM within 11 to 14 %):
${ROLL_COEFFICIENTS.map((one) => `  ${one.name.padEnd(12)} ${one.f.toFixed(2)}  ${one.condition}`).join('\n')}

Exit codes: 0 done, 2 wrong usage, 3 input refused (code, where, what), 4 no free roll in the record.

Example:
  heelwright roll heel.csv --beam 4.8 --coefficient deep-sea`;

export function registerRoll(program: Command): void {
  program
    .command('roll')
    .description('roll period and damping of a recorded free roll, and GM by it')
    .argument('<samples>', 'CSV: timeS,heelDeg[,more instruments]; - is standard input')
    .option('--json', 'answer as JSON (heelwright schema roll)')
    .option('--run <from:to...>', 'look for free roll only here, seconds; may be given again')
    .option('--beam <m>', 'beam at the waterline')
    .option('--coefficient <name>', 'row of the table that fits her')
    .option('--draught <m>', 'mean moulded draught, with --length: GM by C')
    .option('--length <m>', 'length at the waterline')
    .option('--gm <m>', 'fluid GM by inclining in this same condition')
    .option('--gm-uncertainty <m>', 'one standard uncertainty of it')
    .option('--displacement <t>', 'displacement in this condition')
    .option('--date <YYYY-MM-DD>', 'day of the test')
    .option('--condition <words>', 'fuel, water, gear, fish, people aboard')
    .option('--history <file>', 'her earlier tests (heelwright schema roll-history)')
    .option('--keep', 'write this test into --history; needs --beam, --date, --condition')
    .option('--vessel <name>', 'her name, for a history that is begun')
    .addHelpText('after', HELP)
    .action((path: string, options: RollOptions) =>
      guarded(options.json ?? false, () => roll(path, options)),
    );
}

function roll(path: string, options: RollOptions): void {
  const usage = wrongUsage(options);
  if (usage !== null) {
    console.error(usage);
    process.exitCode = EXIT.usage;
    return;
  }
  const marks = (options.run ?? []).map(markOf);
  const { history, begins } = historyOf(options);
  if (options.coefficient !== undefined) coefficientByName(options.coefficient);
  const channels = channelsFromFile(path);
  const answer = rollTest(
    channels.map((channel) => ({ ...channel, runs: runsOf(channel, marks) })),
    {
      beamM: metres(options.beam),
      draughtM: metres(options.draught),
      lengthM: metres(options.length),
      coefficient: options.coefficient ?? null,
      inclinedGmM: inclinedGm(options),
      displacementT: metres(options.displacement),
      date: options.date ?? null,
      condition: options.condition ?? null,
      history: begins ? null : history,
    },
  );
  if (options.keep) keep(options.history!, history!, answer);
  console.log(options.json ? JSON.stringify(answer, null, 2) : rollWords(answer).join('\n'));
  if (answer.period === null) process.exitCode = EXIT.failed;
}

const POSITIVE = ['beam', 'draught', 'length', 'gm', 'gmUncertainty', 'displacement'] as const;

function wrongUsage(options: RollOptions): string | null {
  for (const name of POSITIVE) {
    const given = options[name];
    if (given !== undefined && !(Number(given) > 0 && Number.isFinite(Number(given)))) {
      return `--${name.replace('U', '-u')} ${given} is not a number over 0`;
    }
  }
  const unmarked = options.run?.find((text) => markOf(text) === null);
  if (unmarked !== undefined) return `--run ${unmarked} is not from:to in seconds`;
  if ((options.gm === undefined) !== (options.gmUncertainty === undefined)) {
    return '--gm and --gm-uncertainty belong together';
  }
  if (options.date !== undefined && !/^\d{4}-\d\d-\d\d$/.test(options.date)) {
    return `--date ${options.date} is not YYYY-MM-DD`;
  }
  const { keep: kept, history, beam, date, condition } = options;
  if (kept && [history, beam, date, condition].includes(undefined)) {
    return '--keep needs --history, --beam, --date and --condition';
  }
  if (kept && !existsSync(history!) && options.vessel === undefined) {
    return `${history} is not there yet: --vessel begins it`;
  }
  return null;
}

interface Mark {
  readonly fromS: number;
  readonly toS: number;
}

function markOf(text: string): Mark | null {
  const [from, to, ...more] = text.split(':');
  if (!from || !to || more.length > 0) return null;
  const mark = { fromS: Number(from), toS: Number(to) };
  return Number.isFinite(mark.fromS) && mark.toS > mark.fromS ? mark : null;
}

function metres(given: string | undefined): number | null {
  return given === undefined ? null : Number(given);
}

function inclinedGm({ gm, gmUncertainty }: RollOptions): Uncertain | null {
  if (gm === undefined) return null;
  return {
    value: Number(gm),
    standardUncertainty: Number(gmUncertainty),
    degreesOfFreedom: Number.POSITIVE_INFINITY,
  };
}

function runsOf(channel: FileChannel, marks: readonly (Mark | null)[]) {
  if (marks.length === 0) return runsOfRecord(channel);
  return marks.flatMap((mark) => (mark === null ? [] : [markedRun(channel, mark.fromS, mark.toS)]));
}

function historyOf(options: RollOptions): { history: RollHistory | null; begins: boolean } {
  const { history: path, vessel } = options;
  if (path === undefined) return { history: null, begins: false };
  if (options.keep && vessel !== undefined && !existsSync(path)) {
    return { history: { vessel, tests: [] }, begins: true };
  }
  return { history: inputFromFile(rollHistory, path), begins: false };
}

/** Written beside and renamed, so that a history is never half written. */
function keep(path: string, history: RollHistory, answer: RollOutput): void {
  if (answer.kept === null) return;
  const tests = [...history.tests, answer.kept];
  const text = `${JSON.stringify(rollHistory.parse({ ...history, tests }), null, 2)}\n`;
  try {
    writeFileSync(`${path}.new`, text);
    renameSync(`${path}.new`, path);
  } catch (error) {
    throw new Fault('file-not-writable', path, (error as Error).message);
  }
}
