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
const ROWS_LOOKED_AT = 10_000;

/**
 * A whole recording through the same smoothing and watch as the live samples, as one state that
 * begins with the first sample. Throws `samples-too-sparse`.
 */
export function judgeRecording(
  table: SampleTable,
  settings: Omit<WatchSettings, 'instruments'> = {},
): JudgedRecording {
  const judge = new RecordingJudge(
    table.columns.map(({ name }) => name),
    settings,
  );
  table.timeS.forEach((timeS, row) => {
    judge.push(
      timeS,
      table.columns.map(({ values }) => values[row]!),
    );
  });
  return judge.finish();
}

/** The same row by row, in constant memory but for what it has to tell. */
export class RecordingJudge {
  private readonly watch: Watch;
  private readonly smoothers: readonly Smoother[];
  private readonly stretches = new Stretches();
  private readonly notUsed: NotUsed[] = [];
  private readonly spacings: number[] = [];
  private fromS: number | null = null;
  private beforeS = 0;
  private lookS = 0;
  private toS = 0;
  private samples = 0;

  constructor(
    private readonly names: readonly string[],
    settings: Omit<WatchSettings, 'instruments'> = {},
  ) {
    this.watch = createWatch({
      ...settings,
      instruments: names.map((name) => ({
        instrument: name,
        label: name,
        settlingS: 0,
        refused: null,
      })),
    });
    this.smoothers = names.map(() => new Smoother());
  }

  /** Throws `samples-too-sparse`. */
  push(timeS: number, values: readonly (number | null)[]): void {
    if (this.fromS === null) this.begin(timeS);
    else if (this.spacings.length < ROWS_LOOKED_AT) {
      this.spacings.push(timeS - this.beforeS);
      if (this.spacings.length === ROWS_LOOKED_AT) this.checkSpacing();
    }
    this.beforeS = timeS;
    this.samples += 1;
    this.smoothers.forEach((smoother, k) => {
      for (const { atS, value } of smoother.push(timeS, values[k]!)) {
        this.watch.push(this.names[k]!, atS, value);
      }
    });
    this.toS = Math.max(this.toS, timeS);
    if (this.toS < this.lookS) return;
    this.lookS = this.toS + LOOK_EVERY_S;
    this.stretches.look(this.toS, this.watch.picture(this.toS));
    this.notUsed.push(...this.watch.finished());
  }

  /** Throws `samples-too-sparse` and `input-too-few`. */
  finish(): JudgedRecording {
    if (this.fromS === null) throw new Fault('input-too-few', 'table', 'no rows');
    if (this.spacings.length < ROWS_LOOKED_AT) this.checkSpacing();
    return {
      instruments: this.names,
      fromS: this.fromS,
      toS: this.toS,
      samples: this.samples,
      late: Math.max(...this.smoothers.map(({ late }) => late)),
      stretches: this.stretches.finish(this.toS),
      notUsed: [...this.notUsed, ...stillGoing(this.watch, this.toS)],
    };
  }

  private begin(timeS: number): void {
    this.fromS = timeS;
    this.toS = timeS;
    this.lookS = timeS;
    this.watch.beginState(timeS);
  }

  private checkSpacing(): void {
    const middle = median(this.spacings);
    if (!(middle <= MOST_SPACING_S)) {
      throw new Fault('samples-too-sparse', 'table', `one sample every ${middle} s`);
    }
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
