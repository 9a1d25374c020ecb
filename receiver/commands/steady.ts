import { readFileSync, statSync } from 'node:fs';
import type { Command } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import { sampleTableFromText } from '#core/sample/sample-table.ts';
import { type JudgedRecording, judgeRecording } from '#core/steadiness/judge-recording.ts';
import { EXIT, guarded } from './common.ts';
import { fixedWords, measuredWords } from './figure.ts';

const MOST_BYTES = 256 * 1024 * 1024;

export function registerSteady(program: Command): void {
  program
    .command('steady')
    .description('tell when a recorded heel is steady, and the heel then')
    .argument('<samples>', 'CSV: timeS,heelDeg[,more instruments]')
    .option('--json', 'answer as JSON')
    .option('--target <degrees>', 'call it steady at this standard error')
    .addHelpText(
      'after',
      [
        '',
        'Fields parted by comma, semicolon or tab; a decimal comma is understood beside the latter',
        'two; a header or none; irregular times, gaps and empty fields are allowed. At least 8',
        'samples a second. Heel positive starboard down, degrees.',
        '',
        'Example:',
        '  heelwright steady heel.csv --json',
      ].join('\n'),
    )
    .action((path: string, options: { json?: boolean; target?: string }) =>
      guarded(options.json ?? false, () => steady(path, options)),
    );
}

function steady(path: string, options: { json?: boolean; target?: string }): void {
  const target = options.target === undefined ? undefined : Number(options.target);
  if (target !== undefined && !(target > 0)) {
    console.error(`--target ${options.target} is not a number of degrees over 0`);
    process.exitCode = EXIT.usage;
    return;
  }
  const table = sampleTableFromText(textOf(path));
  const judged = judgeRecording(
    table,
    target === undefined ? {} : { targetStandardErrorDeg: target },
  );
  if (options.json) console.log(JSON.stringify(judged, null, 2));
  else console.log(recordingWords(judged));
}

function textOf(path: string): string {
  try {
    const { size } = statSync(path);
    if (size > MOST_BYTES) {
      throw new Fault('input-too-large', path, `${size} bytes, at most ${MOST_BYTES}`);
    }
    return readFileSync(path, 'utf8');
  } catch (error) {
    if (error instanceof Fault) throw error;
    throw new Fault('file-not-readable', path, (error as Error).message);
  }
}

function recordingWords(judged: JudgedRecording): string {
  const span = `${fixedWords(judged.fromS, 1)} to ${fixedWords(judged.toS, 1)} s`;
  const words = [`${judged.samples} samples of ${judged.instruments.join(', ')}, ${span}`];
  if (judged.late > 0) words.push(`${judged.late} late or doubled samples were not used`);
  words.push('');
  judged.stretches.forEach(({ fromS, toS, verdict, reason, heel }, k) => {
    words.push(`${fixedWords(fromS, 1)} to ${fixedWords(toS, 1)} s  ${verdict}: ${reason}`);
    if (heel === null || (verdict !== 'steady' && k < judged.stretches.length - 1)) return;
    const called = verdict === 'steady' ? 'heel' : 'not to be read yet: heel';
    words.push(`    ${called} ${heelWords(heel)}`);
  });
  if (judged.notUsed.length > 0) words.push('', 'Not used:');
  for (const { fromS, toS, kind, evidence } of judged.notUsed) {
    words.push(`${fixedWords(fromS, 1)} to ${fixedWords(toS, 1)} s  ${kind}: ${evidence}`);
  }
  return words.join('\n');
}

function heelWords(heel: NonNullable<JudgedRecording['stretches'][number]['heel']>): string {
  const angle = measuredWords(heel.heelDeg, heel.halfWidth95Deg, 'degree');
  const roll =
    heel.rollPeriodS === null || heel.dampingRatio === null
      ? ''
      : `, roll period ${fixedWords(heel.rollPeriodS, 3)} s, damping ${fixedWords(heel.dampingRatio, 4)}`;
  return `${angle} (95 %), counted ${fixedWords(heel.countedS, 0)} s${roll}`;
}
