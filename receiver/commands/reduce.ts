import { closeSync, openSync, readFileSync, readSync, statSync } from 'node:fs';
import type { Command } from 'commander';
import { FAULTS, Fault, type FaultReport } from '#core/fault/fault.ts';
import { reduceTest } from '#core/reduction/reduce-test.ts';
import { parseTestInput } from '#core/reduction/test-input.ts';
import { closingOfSession } from '#core/session/closing-of-session.ts';
import { dayReduction } from '#core/session/day-reduction.ts';
import { issuesOfSession } from '#core/session/issues.ts';
import { resultOfSession } from '#core/session/result.ts';
import { surveyMissing } from '#core/session/survey-missing.ts';
import { hullOfTest } from '../test-hull.ts';
import { EXIT, guarded } from './common.ts';
import { dayWords } from './day-words.ts';
import { resultWords } from './reduce-record-words.ts';
import { reductionWords } from './reduce-words.ts';
import { sessionFromFile } from './replay.ts';

const MOST_INPUT_BYTES = 4 * 1024 * 1024;
const RECORD_BEGINS = '{"n":0,"kind":"record-opened"';

interface ReduceOptions {
  readonly json?: boolean;
  readonly untroubled?: boolean;
}

const HELP = `
A test written by hand is JSON (heelwright schema reduce); a record is the file of a day.
Displacement and KM are given, or follow from a hull or tables in a file beside the test, its
freeboards or draught marks, and the water; with a survey the lightship follows too.
Answers: GM (fluid), KG where KM is known, each with ± at 95 %, what made it uncertain, what is
seen in the plot, what no plot can show, and what to measure again.

Exit codes: 0 done, 2 wrong usage, 3 the test is refused (code, where, what), 4 with --untroubled
when a shape is seen in the plot.

Example:
  heelwright reduce test.json --json`;

/** `reduce TEST`: every figure of a test written by hand or of a record. */
export function registerReduce(program: Command): void {
  program
    .command('reduce')
    .description('reduce a test written by hand, or a record, to GM and KG with uncertainty')
    .argument('<test>', 'JSON of a test, or a record file')
    .option('--json', 'answer as JSON (heelwright schema reduction)')
    .option('--untroubled', 'exit 4 when a shape is seen in the plot')
    .addHelpText('after', HELP)
    .action((path: string, options: ReduceOptions) =>
      guarded(options.json ?? false, async () => {
        if (isRecord(path)) reduceRecord(path, options);
        else await reduceWritten(path, options);
      }),
    );
}

async function reduceWritten(path: string, options: ReduceOptions): Promise<void> {
  const parsed = parseTestInput(readFileSync(path, 'utf8'));
  if (parsed.test === null) {
    sayFaults(path, parsed.faults, options.json ?? false);
    return;
  }
  const output = reduceTest(parsed.test, await hullOfTest(parsed.test, path));
  console.log(options.json ? JSON.stringify(output, null, 2) : reductionWords(output).join('\n'));
  if (options.untroubled && output.diagnosis.troubleSeen) process.exitCode = EXIT.failed;
}

function reduceRecord(path: string, options: ReduceOptions): void {
  const session = sessionFromFile(path);
  const result = resultOfSession(session);
  if (result.refused !== null) {
    const { code, where, found } = result.refused;
    throw new Fault(code, where, found);
  }
  const issues = issuesOfSession(session);
  const day = dayReduction(session);
  const closing = closingOfSession(session, day.reduction?.float?.massPerDraught ?? null);
  const missing = surveyMissing(session);
  if (options.json) {
    console.log(JSON.stringify({ ...result, issues, day, closing, missing }, null, 2));
  } else {
    const words = [...resultWords(result, issues), ...dayWords(day, closing, missing)];
    console.log(words.join('\n'));
  }
  if (options.untroubled && result.diagnosis?.troubleSeen) process.exitCode = EXIT.failed;
}

/** All faults found, so that a test is put right in one go. */
function sayFaults(path: string, faults: readonly FaultReport[], json: boolean): void {
  if (json) {
    const said = faults.map((fault) => ({ ...fault, ...FAULTS[fault.code] }));
    console.error(JSON.stringify({ refused: said }));
  } else {
    for (const { code, where, found } of faults)
      console.error(`${path}: ${where}: ${code}: ${found}`);
    for (const code of new Set(faults.map((fault) => fault.code))) {
      console.error(`${code}: ${FAULTS[code].means}. ${FAULTS[code].remedy}`);
    }
  }
  process.exitCode = EXIT.refused;
}

/** A record is known by how its first line begins. Throws `file-not-readable`, `input-too-large`. */
function isRecord(path: string): boolean {
  try {
    const descriptor = openSync(path, 'r');
    try {
      const first = Buffer.alloc(RECORD_BEGINS.length);
      readSync(descriptor, first, 0, first.length, 0);
      if (first.toString('latin1') === RECORD_BEGINS) return true;
    } finally {
      closeSync(descriptor);
    }
    const { size } = statSync(path);
    if (size > MOST_INPUT_BYTES) {
      throw new Fault('input-too-large', path, `${size} bytes, at most ${MOST_INPUT_BYTES}`);
    }
    return false;
  } catch (error) {
    if (error instanceof Fault) throw error;
    throw new Fault('file-not-readable', path, (error as Error).message);
  }
}
