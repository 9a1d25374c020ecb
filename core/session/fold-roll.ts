import { Fault } from '../fault/fault.ts';
import type { Line } from '../record/line.ts';
import type { SessionState } from './session.ts';
import { writtenOf } from './written.ts';

/** A day has a handful of runs; a hostile record may have any number. */
const MOST_RUNS = 200;

/** The runs of the roll test after one of its lines; a refusal of what is no run in force throws `record-line`. */
export function rollRunsAfter(
  runs: SessionState['rollRuns'],
  line: Extract<Line, { kind: 'roll-run' | 'roll-run-refused' }>,
): SessionState['rollRuns'] {
  const where = `line ${line.n} (${line.kind})`;
  if (line.kind === 'roll-run') {
    if (runs.length === MOST_RUNS) throw new Fault('record-line', where, `over ${MOST_RUNS} runs`);
    return [...runs, { written: writtenOf(line), rolled: line.body, refused: null }];
  }
  const at = runs.findIndex((run) => run.written.line === line.body.line && run.refused === null);
  if (at < 0) throw new Fault('record-line', where, `line ${line.body.line} is no run in force`);
  const refused = { written: writtenOf(line), reason: line.body.reason };
  return runs.with(at, { ...runs[at]!, refused });
}
