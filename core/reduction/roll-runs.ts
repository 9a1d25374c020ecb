import { Fault } from '../fault/fault.ts';
import { plainUncertain } from '../numerics/coverage.ts';
import { freeRollStretches, type RollStretch } from './free-roll.ts';
import type { RollPeriodOutput, RollRunOutput } from './roll-output.ts';
import type { RollPeriod } from './roll-period.ts';
import { type RollRun, rollRun } from './roll-run.ts';

/** One instrument's samples, in the record's own time, rising. */
export interface RollChannel {
  readonly timeS: ArrayLike<number>;
  readonly heelDeg: ArrayLike<number>;
}

/** Every stretch of a record that may be free roll, fitted and judged, in order of time. */
export function runsOfRecord(channel: RollChannel): RollRun[] {
  return freeRollStretches(channel.timeS, channel.heelDeg).flatMap((stretch) => {
    const run = fitted(channel, stretch);
    return run === null ? [] : [run];
  });
}

/**
 * A stretch a person marked: the free roll found within it, or the whole of it as one run where
 * none is. Throws `input-range` outside the record, `input-too-few`, `no-convergence`.
 */
export function markedRun(channel: RollChannel, fromS: number, toS: number): RollRun {
  const { timeS, heelDeg } = channel;
  const from = firstAtOrAfter(timeS, fromS);
  const to = firstAtOrAfter(timeS, toS);
  if (!(fromS < toS) || to - from < 2) {
    throw new Fault('input-range', 'run', `${fromS} to ${toS} s holds ${to - from} samples`);
  }
  const part = {
    timeS: Array.prototype.slice.call(timeS, from, to) as number[],
    heelDeg: Array.prototype.slice.call(heelDeg, from, to) as number[],
  };
  const stretches = freeRollStretches(part.timeS, part.heelDeg);
  const longest = stretches.reduce<RollStretch | null>(
    (best, one) => (best === null || one.toS - one.fromS > best.toS - best.fromS ? one : best),
    null,
  );
  if (longest === null) {
    throw new Fault('input-too-few', 'run', `no three cycles of rolling from ${fromS} to ${toS} s`);
  }
  return rollRun(samplesOf(part, longest), longest.fromS, longest.nearPeriodS);
}

/** Null for a stretch no decaying cosine can be laid on. */
function fitted(channel: RollChannel, stretch: RollStretch): RollRun | null {
  try {
    return rollRun(samplesOf(channel, stretch), stretch.fromS, stretch.nearPeriodS);
  } catch (error) {
    const code = error instanceof Fault ? error.code : null;
    if (code === 'no-convergence' || code === 'input-too-few') return null;
    throw error;
  }
}

function samplesOf({ timeS, heelDeg }: RollChannel, { fromS, toS }: RollStretch) {
  const from = firstAtOrAfter(timeS, fromS);
  let to = firstAtOrAfter(timeS, toS);
  if (timeS[to] === toS) to += 1;
  const places = Array.from({ length: to - from }, (_, k) => from + k);
  return {
    timeS: Float64Array.from(places, (k) => timeS[k]! - fromS),
    heelDeg: Float64Array.from(places, (k) => heelDeg[k]!),
  };
}

function firstAtOrAfter(timeS: ArrayLike<number>, wantedS: number): number {
  let low = 0;
  let high = timeS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeS[middle]! < wantedS) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The same as plain data. */
export function plainRun(run: RollRun): RollRunOutput {
  const { froude, linear } = run;
  return {
    ...run,
    periodS: plainUncertain(run.periodS),
    dampingRatio: plainUncertain(run.dampingRatio),
    offsetDeg: plainUncertain(run.offsetDeg),
    linear: {
      periodS: plainUncertain(linear.periodS),
      dampingRatio: plainUncertain(linear.dampingRatio),
    },
    froude: froude && {
      a: plainUncertain(froude.a),
      bPerDeg: plainUncertain(froude.bPerDeg),
      shown: froude.shown,
    },
  };
}

export function plainPeriod(period: RollPeriod): RollPeriodOutput {
  const { froude } = period;
  return {
    ...period,
    periodS: plainUncertain(period.periodS),
    dampingRatio: plainUncertain(period.dampingRatio),
    froude: froude && { a: plainUncertain(froude.a), bPerDeg: plainUncertain(froude.bPerDeg) },
  };
}
