import type { Command } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import { type JudgedRecording, RecordingJudge } from '#core/steadiness/judge-recording.ts';
import { EXIT, guarded } from './common.ts';
import { fixedWords, measuredWords } from './figure.ts';
import { rowsFromFile, SAMPLE_FORMS } from './sample-file.ts';

export function registerSteady(program: Command): void {
  program
    .command('steady')
    .description('tell when a recorded heel is steady, and the heel then')
    .argument('<samples>', 'CSV: timeS,heelDeg[,more instruments]; - is standard input')
    .option('--json', 'answer as JSON (heelwright schema steady)')
    .option('--accuracy <degrees>', 'call it steady at this standard error')
    .addHelpText(
      'after',
      [
        '',
        SAMPLE_FORMS,
        'At least 8 samples a second.',
        '',
        'Example:',
        '  heelwright steady heel.csv --json',
      ].join('\n'),
    )
    .action((path: string, options: { json?: boolean; accuracy?: string }) =>
      guarded(options.json ?? false, () => steady(path, options)),
    );
}

function steady(path: string, options: { json?: boolean; accuracy?: string }): void {
  const target = options.accuracy === undefined ? undefined : Number(options.accuracy);
  if (target !== undefined && !(target > 0)) {
    console.error(`--accuracy ${options.accuracy} is not a number of degrees over 0`);
    process.exitCode = EXIT.usage;
    return;
  }
  const judged = judgedFile(path, target === undefined ? {} : { targetStandardErrorDeg: target });
  if (options.json) console.log(JSON.stringify(judged, null, 2));
  else console.log(recordingWords(judged));
}

function judgedFile(path: string, settings: { targetStandardErrorDeg?: number }): JudgedRecording {
  let judge: RecordingJudge | null = null;
  rowsFromFile(path, {
    columns: (names) => {
      judge = new RecordingJudge(names, settings);
    },
    row: (timeS, values) => judge?.push(timeS, values),
  });
  return (judge as RecordingJudge | null)?.finish() ?? noRows(path);
}

function noRows(path: string): never {
  throw new Fault('input-too-few', path, 'no rows');
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
