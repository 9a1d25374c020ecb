import type { Command } from 'commander';
import { changesOf } from '#core/session/changes.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import { sessionOfIssue } from '#core/session/session-of-issue.ts';
import { MOST_DIFFERENCE_DEG } from '../reading-difference.ts';
import { type Recomputed, recomputeEstimates } from '../recompute.ts';
import { EXIT, guarded } from './common.ts';
import { scanRecordFile } from './verify.ts';

export function registerReplay(program: Command): void {
  program
    .command('replay')
    .description('fold a record again and print what the day came to')
    .argument('<record>', 'the record file')
    .option(
      '--recompute',
      'estimate every reading, rejection and run of roll again from the samples; exits 4 on a difference',
    )
    .option('--json', 'answer as JSON')
    .addHelpText(
      'after',
      '\nExamples:\n  heelwright replay day.hwr --json\n  heelwright replay day.hwr --recompute',
    )
    .action((path: string, options: { json?: boolean; recompute?: boolean }) =>
      guarded(options.json ?? false, async () => {
        if (options.recompute) {
          recompute(path, options.json ?? false);
          return;
        }
        const session = sessionFromFile(path);
        if (options.json)
          console.log(
            JSON.stringify({
              session,
              result: resultOfSession(session),
              earlierIssues: changesOf(session).map((_, k) =>
                resultOfSession(sessionOfIssue(session, k + 1)),
              ),
            }),
          );
        else console.log(sessionWords(session).join('\n'));
      }),
    );
}

function recompute(path: string, json: boolean): void {
  const estimates = recomputeEstimates((follow) => {
    const { fault } = scanRecordFile(path, follow);
    if (fault !== null) throw fault;
  });
  const differ = estimates.filter(({ outcome }) => outcome === 'differs').length;
  const repeated = estimates.filter(({ outcome }) => outcome !== 'not-repeated').length;
  const readings = estimates.filter(({ kind }) => kind === 'reading');
  const rollRuns = estimates.filter(({ kind }) => kind === 'roll-run');
  const rejections = estimates.filter(({ kind }) => kind === 'disturbance');
  if (json)
    console.log(
      JSON.stringify({
        mostDifferenceDeg: MOST_DIFFERENCE_DEG,
        differ,
        readings,
        rejections,
        rollRuns,
      }),
    );
  else {
    for (const estimate of estimates) console.log(recomputedWords(estimate));
    console.log(
      `${repeated} of ${estimates.length} estimated again (${readings.length} readings, ${rejections.length} rejections, ${rollRuns.length} runs of roll), ${differ} differ.`,
    );
  }
  if (differ > 0) process.exitCode = EXIT.failed;
}

function recomputedWords(estimate: Recomputed): string {
  const { line, kind, state, outcome, found, differenceDeg } = estimate;
  const what = kind === 'roll-run' ? 'run of roll' : 'rejected time';
  const of = `Line ${line}, ${state === null ? what : `state ${state}`}`;
  if (outcome === 'same')
    return state === null
      ? `${of}: the same`
      : `${of}: the same in every figure, heel within ${(differenceDeg ?? 0).toExponential(1)} deg`;
  return `${of}: ${outcome === 'differs' ? 'differs' : 'not repeated'}: ${found}`;
}

/** The session a record folds to. Throws the fault of the first line that does not hold. */
export function sessionFromFile(path: string): SessionState {
  let session = EMPTY_SESSION;
  const scan = scanRecordFile(path, ({ line }) => {
    session = foldLine(session, line);
  });
  if (scan.fault !== null) throw scan.fault;
  return session;
}

function sessionWords(session: SessionState): string[] {
  const words = [`Record ${session.record}, ${session.lines} lines`];
  if (session.test === null) return [...words, 'No test was opened.'];
  words.push(`${session.test.vessel}, ${session.test.at}`);
  for (const state of session.states) {
    const reading = state.reading?.joined;
    const seen =
      reading === undefined
        ? 'not read'
        : `${reading.heelDeg.toFixed(4)} deg, standard error ${reading.standardErrorDeg.toFixed(5)} deg`;
    const voided = state.voided.length === 0 ? '' : `, ${state.voided.length} voided`;
    words.push(
      `State ${state.state}: moment ${state.heelingMomentTM.toFixed(3)} t m, heel ${seen}${voided}`,
    );
  }
  const { gmFluidM, refused } = resultOfSession(session);
  if (gmFluidM !== null)
    words.push(
      `GM fluid ${gmFluidM.value.toFixed(4)} m, 95 % interval +-${gmFluidM.halfWidth95.toFixed(4)} m`,
    );
  else words.push(`No GM yet: ${refused === null ? 'too few readings' : refused.found}`);
  words.push(session.closed === null ? 'The test is open.' : `Closed: ${session.closed.reason}`);
  return words;
}
