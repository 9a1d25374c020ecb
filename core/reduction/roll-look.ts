import { Fault } from '../fault/fault.ts';
import type { RollRunOutput } from './roll-output.ts';
import type { RollRun } from './roll-run.ts';
import { markedRun, plainRun, type RollChannel, runsOfRecord } from './roll-runs.ts';

/** Name and version of how a run is fitted and judged; it stands in the record beside each run. */
export const ROLL_ESTIMATOR = 'decaying-cosine-1';

export interface RollInstrument extends RollChannel {
  readonly instrument: string;
}

/** A stretch as one instrument shows it best, and the same by the others. */
export interface RollFound {
  readonly by: 'found' | 'marked';
  readonly instrument: string;
  readonly estimator: string;
  readonly run: RollRunOutput;
  readonly others: {
    readonly instrument: string;
    readonly periodS: number;
    readonly standardUncertaintyS: number;
  }[];
}

interface Shown {
  readonly instrument: string;
  readonly run: RollRun;
}

/**
 * Runs of free roll in what several instruments recorded, in order of time: found by themselves
 * after `afterS`, or the one stretch a person marked. The roll is common to all instruments, so a
 * run is told by the one that knows its period best; free roll goes before what is refused. Throws
 * for a mark that holds no rolling: `input-range`, `input-too-few`, `no-convergence`.
 */
export function lookForRoll(
  instruments: readonly RollInstrument[],
  mark: { readonly fromS: number; readonly toS: number } | null,
  afterS: number,
): RollFound[] {
  const shown =
    mark === null
      ? instruments.flatMap(({ instrument, ...channel }) =>
          runsOfRecord(channel)
            .filter((run) => run.fromS > afterS)
            .map((run) => ({ instrument, run })),
        )
      : markedBy(instruments, mark);
  return together(shown).map((same) => {
    const [best, ...others] = same.sort(byKnowledge);
    return {
      by: mark === null ? 'found' : 'marked',
      instrument: best!.instrument,
      estimator: ROLL_ESTIMATOR,
      run: plainRun(best!.run),
      others: others
        .filter((one, k) => others.findIndex((two) => two.instrument === one.instrument) === k)
        .map(({ instrument, run }) => ({
          instrument,
          periodS: run.periodS.value,
          standardUncertaintyS: run.periodS.standardUncertainty,
        })),
    };
  });
}

/** Every instrument that shows rolling there; the last fault where none does. */
function markedBy(
  instruments: readonly RollInstrument[],
  { fromS, toS }: { fromS: number; toS: number },
): Shown[] {
  let fault: Fault | null = null;
  const shown = instruments.flatMap(({ instrument, ...channel }) => {
    try {
      return [{ instrument, run: markedRun(channel, fromS, toS) }];
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      fault = error;
      return [];
    }
  });
  if (shown.length > 0) return shown;
  throw fault ?? new Fault('input-too-few', 'roll', 'no instrument');
}

/** Runs that share time are one; in order. */
function together(shown: readonly Shown[]): Shown[][] {
  const groups: Shown[][] = [];
  let endS = Number.NEGATIVE_INFINITY;
  for (const one of [...shown].sort((first, second) => first.run.fromS - second.run.fromS)) {
    if (one.run.fromS < endS) groups.at(-1)!.push(one);
    else groups.push([one]);
    endS = Math.max(endS, one.run.toS);
  }
  return groups;
}

function byKnowledge(one: Shown, other: Shown): number {
  const refused = Number(one.run.refused !== null) - Number(other.run.refused !== null);
  return refused || one.run.periodS.standardUncertainty - other.run.periodS.standardUncertainty;
}
