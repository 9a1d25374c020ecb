import { Fault } from '../fault/fault.ts';
import type { SampleTable } from '../sample/sample-table.ts';
import { Smoother } from '../sample/smoothing.ts';
import { median } from '../signal/robust.ts';
import type { HeelEstimate, Verdict } from './estimate.ts';
import { createWatch } from './watch.ts';
import type { NotUsed, Watch, WatchPicture, WatchSettings } from './watch-types.ts';

/** A stretch of a recording under one verdict, and the heel as it was known at its end. */
export interface JudgedStretch {
  readonly fromS: number;
  readonly toS: number;
  readonly verdict: Verdict;
  readonly reason: string;
  /** A reading only where the verdict is steady. */
  readonly heel:
    | (HeelEstimate & {
        readonly countedS: number;
        readonly rollPeriodS: number | null;
        readonly dampingRatio: number | null;
      })
    | null;
}

export interface JudgedRecording {
  readonly instruments: readonly string[];
  readonly fromS: number;
  readonly toS: number;
  readonly samples: number;
  /** Samples that came at or before a time already taken, and were not used. */
  readonly late: number;
  readonly stretches: readonly JudgedStretch[];
  readonly notUsed: readonly NotUsed[];
}

/** Samples farther apart than this show no rolling. */
const MOST_SPACING_S = 0.125;
const LOOK_EVERY_S = 0.5;

/**
 * A whole recording through the same smoothing and watch as the live samples, as one state that
 * begins with the first sample. Throws `samples-too-sparse`.
 */
export function judgeRecording(
  table: SampleTable,
  settings: Omit<WatchSettings, 'instruments'> = {},
): JudgedRecording {
  checkSpacing(table.timeS);
  const names = table.columns.map(({ name }) => name);
  const watch = createWatch({
    ...settings,
    instruments: names.map((name) => ({
      instrument: name,
      label: name,
      settlingS: 0,
      refused: null,
    })),
  });
  const smoothers = names.map(() => new Smoother());
  const fromS = table.timeS[0]!;
  watch.beginState(fromS);
  const stretches = new Stretches();
  const notUsed: NotUsed[] = [];
  let lookS = fromS;
  let toS = fromS;
  table.timeS.forEach((timeS, row) => {
    smoothers.forEach((smoother, k) => {
      for (const { atS, value } of smoother.push(timeS, table.columns[k]!.values[row]!)) {
        watch.push(names[k]!, atS, value);
      }
    });
    toS = Math.max(toS, timeS);
    if (toS < lookS) return;
    lookS = toS + LOOK_EVERY_S;
    stretches.look(toS, watch.picture(toS));
    notUsed.push(...watch.finished());
  });
  return {
    instruments: names,
    fromS,
    toS,
    samples: table.timeS.length,
    late: Math.max(...smoothers.map(({ late }) => late)),
    stretches: stretches.finish(toS),
    notUsed: [...notUsed, ...stillGoing(watch, toS)],
  };
}

function checkSpacing(timeS: readonly number[]): void {
  const few = timeS.slice(0, 10_000);
  const spacings = few.slice(1).map((time, k) => time - few[k]!);
  const middle = median(spacings);
  if (!(middle <= MOST_SPACING_S)) {
    throw new Fault('samples-too-sparse', 'table', `one sample every ${middle} s`);
  }
}

function stillGoing(watch: Watch, toS: number): NotUsed[] {
  return watch.picture(toS).notUsed.filter((stretch) => stretch.toS === toS);
}

/** Joins looks of one verdict into stretches; what counts down within a reason is no change. */
class Stretches {
  private readonly done: JudgedStretch[] = [];
  private now: JudgedStretch | null = null;

  look(atS: number, { joined }: WatchPicture): void {
    const { verdict, reason, estimate, countedS, rollPeriodS, dampingRatio } = joined;
    const heel = estimate && { ...estimate, countedS, rollPeriodS, dampingRatio };
    const same = this.now?.verdict === verdict && kindOf(this.now.reason) === kindOf(reason);
    if (this.now !== null && !same) this.done.push({ ...this.now, toS: atS });
    const fromS = this.now !== null && same ? this.now.fromS : atS;
    this.now = { fromS, toS: atS, verdict, reason, heel };
  }

  finish(toS: number): JudgedStretch[] {
    return this.now === null ? this.done : [...this.done, { ...this.now, toS }];
  }
}

const kindOf = (reason: string) => reason.replace(/[\d.]+/g, '');
