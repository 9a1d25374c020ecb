import {
  blocksThatCount,
  blocksToAnswerFor,
  type Span,
  storyOf,
  type Told,
} from './block-marks.ts';
import type { HeelEstimate } from './estimate.ts';
import { estimateNow } from './estimate-now.ts';
import { fitRoll, heelOfBlocks, type RollFit } from './fit-roll.ts';
import { GrowingBlock } from './growing-block.ts';
import { type HeelBlocks, RESTART_AFTER_BLOCKS } from './heel-blocks.ts';
import type { HeelFilter } from './heel-filter.ts';
import { Judge, type Suspicion } from './judge.ts';
import { PROMPT_S } from './leading.ts';
import { LearnedLag } from './learned-lag.ts';
import { type OffLevel, offLevelOf } from './off-level.ts';
import { type QuieterHalf, quieterHalf } from './quieter-half.ts';
import { RawShaking } from './raw-shaking.ts';
import { BLOCK_S, type RollModel, SAMPLES_IN_BLOCK } from './roll-model.ts';
import { FIRST_PRIOR, modelOf, priorAfter, type RollPrior } from './roll-prior.ts';
import { Roughness } from './roughness.ts';
import { StateBlocks } from './state-blocks.ts';
import type { WatchedInstrument } from './watch-types.ts';

const SAMPLE_S = 0.1;
/** Nothing is said of the heel before this many roll periods are counted. */
export const FEWEST_PERIODS = 3;
/** The model is learned anew each time this much more has been counted. */
const LEARN_AGAIN = 1.5;
const MOST_BLOCKS = 2000;
/** Older blocks of a very long state are let go. */
const BLOCKS_LET_GO = 500;
/** The smoothing reaches half a second back over the landing; one block more is left out. */
const AFTER_LANDING_S = 0.8;

/**
 * One instrument through the day: its samples of the present state as blocks, which of them
 * count, the model they speak for and the heel by it, and the judge of what comes next.
 */
export class Track extends StateBlocks {
  /** Receiver time of the last sample that had a value; null before the first. */
  lastS: number | null = null;
  judge: Judge | null = null;
  /** What repeated states show every standard error of the day to lack, degrees. */
  missingDeg = 0;
  readonly roughness = new Roughness();
  readonly rawShaking = new RawShaking();
  /** Does it vibrate, as far as its samples within a block tell? */
  isShaking = false;
  private readonly lag = new LearnedLag();
  private begunS = Number.NEGATIVE_INFINITY;
  private prior: RollPrior = FIRST_PRIOR;
  private taught = false;
  private countFromS = Number.POSITIVE_INFINITY;
  /** When this state's own time begins, whatever was begun anew within it. */
  private stateFromS = Number.POSITIVE_INFINITY;
  private isAnsweredFor = false;
  private barred = 0;
  private missingRun = RESTART_AFTER_BLOCKS;
  private readonly growing = new GrowingBlock();
  private fit: RollFit | null = null;
  private fitBlocks = 0;
  private filter: HeelFilter | null = null;
  private readonly dropped: Span[] = [];

  constructor(readonly watched: WatchedInstrument) {
    super();
  }

  get isPrompt(): boolean {
    return this.watched.settlingS <= PROMPT_S;
  }

  /** Seconds until the instrument itself has settled after the state began. */
  settlesInS(nowS: number): number {
    return Math.max(0, this.countFromS - nowS);
  }

  /** The model as this state tells it, else as the day has taught it, else unknown. */
  get model(): RollModel | null {
    if (this.fit !== null) return this.fit.model;
    return this.taught ? modelOf(this.prior.mean) : null;
  }

  /** The period to count by before anything is known. */
  get periodS(): number {
    return this.fit?.model.periodS ?? Math.exp(this.prior.mean[0]!);
  }

  /** Standard uncertainty of the period as this state tells it; null before it tells one. */
  get periodUncertaintyS(): number | null {
    return this.fit === null ? null : this.fit.model.periodS * this.fit.spread[0]!;
  }

  beginState(atS: number): void {
    this.begunS = atS;
    this.countFromS = atS + Math.max(this.lag.settlingS(this.watched.settlingS), AFTER_LANDING_S);
    this.stateFromS = this.countFromS;
    this.isAnsweredFor = false;
    this.beginBlocks(Math.floor(Math.round(atS / SAMPLE_S) / SAMPLES_IN_BLOCK));
    this.growing.forget();
    this.barred = 0;
    this.forgetFit();
  }

  /** How it follows a prompt instrument, block by block; one that lags more than it was said to counts later. */
  followPrompt(block: number, promptDeg: number): void {
    const slowDeg = this.heelOfBlock(block);
    if (slowDeg === undefined) return;
    this.lag.push(block, promptDeg, slowDeg);
    const fromS = this.begunS + this.lag.settlingS(this.watched.settlingS);
    if (fromS - this.countFromS < BLOCK_S) return;
    this.countFromS = fromS;
    this.leaveOut(0, Math.min(this.blockAt(fromS), this.used.length));
    this.learnNow();
  }

  private forgetFit(): void {
    this.fit = null;
    this.fitBlocks = 0;
    this.filter = null;
    this.missingRun = RESTART_AFTER_BLOCKS;
    const model = this.model;
    this.judge = model === null ? null : new Judge(model);
  }

  /** From here on nothing counts, until `unbar`; blocks back to `fromS` neither. */
  bar(fromS: number): void {
    this.barred += 1;
    const first = this.blockAt(fromS);
    const before = this.usedBlocks;
    this.leaveOut(first, this.used.length);
    if (this.usedBlocks < before) this.learnNow();
  }

  unbar(): void {
    this.barred = Math.max(0, this.barred - 1);
    if (this.barred === 0) this.judge?.letRing(this.recentRangeDeg());
  }

  /**
   * A person answers for this time: its blocks of this state that have a value count after all, but
   * for those in `except`; nor is a wilder half dropped any more while the state lasts.
   */
  countAfterAll(span: Span, except: readonly Span[]): void {
    this.isAnsweredFor = true;
    const again = blocksToAnswerFor(this.marked, this.stateFromS, span, except);
    for (const k of again) this.used[k] = true;
    this.usedBlocks += again.length;
    if (again.length > 0) this.learnNow();
  }

  /** Everything counted so far counts no longer, nor is the next judged by it: she lies otherwise now. */
  startOver(fromS: number): void {
    this.leaveOut(0, this.used.length);
    this.countFromS = Math.max(this.countFromS, fromS);
    this.forgetFit();
    this.judge = null;
  }

  /** She lies otherwise since then, but rolls as before: what came since counts, nothing before it. */
  goOnFrom(fromS: number): void {
    const model = this.judge?.model ?? this.model;
    this.startOver(fromS);
    this.takeIn(fromS);
    this.judge = model === null ? null : new Judge(model);
    this.judge?.learn(blocksThatCount(this.marked));
    this.learnNow();
  }

  /** The state lately: what counts until then, and all since. */
  story(atS: number): Told {
    return storyOf(this.marked, this.countFromS, atS);
  }

  /**
   * One sample; returns the suspicion when it completes a block that was judged.
   * Times that go back are left out: the block they belong to is already closed.
   */
  push(atS: number, heelDeg: number | null): Suspicion | null {
    const sample = Math.round(atS / SAMPLE_S);
    const block = Math.floor(sample / SAMPLES_IN_BLOCK);
    if (heelDeg !== null) this.lastS = atS;
    if (block < this.firstBlock + this.heelDeg.length) return null;
    this.roughness.push(heelDeg);
    this.close(this.growing.closeBefore(block));
    while (this.firstBlock + this.heelDeg.length < block) this.addBlock(Number.NaN);
    return this.close(this.growing.add(block, heelDeg));
  }

  private close(heelDeg: number | null): Suspicion | null {
    return heelDeg === null ? null : this.addBlock(heelDeg);
  }

  private addBlock(heelDeg: number): Suspicion | null {
    const startS = (this.firstBlock + this.heelDeg.length) * BLOCK_S;
    const counts = this.barred === 0 && startS >= this.countFromS && !Number.isNaN(heelDeg);
    this.heelDeg.push(heelDeg);
    this.used.push(counts);
    this.isShaking = this.roughness.closeBlock();
    if (this.heelDeg.length > MOST_BLOCKS) this.letGo();
    const suspicion = startS >= this.countFromS ? (this.judge?.push(heelDeg) ?? null) : null;
    if (counts) this.count(heelDeg);
    else {
      this.missingRun += 1;
      this.filter?.skip();
    }
    return suspicion;
  }

  private count(heelDeg: number): void {
    this.usedBlocks += 1;
    if (this.filter !== null) {
      if (this.missingRun >= RESTART_AFTER_BLOCKS) this.filter.letRing(2 * this.recentRangeDeg());
      this.filter.push(heelDeg);
    }
    this.missingRun = 0;
    const enough = this.countedS >= FEWEST_PERIODS * this.periodS;
    if (enough && this.usedBlocks >= LEARN_AGAIN * this.fitBlocks) this.learnNow();
  }

  /** How far she lies off the heel counted before, or null; see off-level.ts. */
  offLevel(): OffLevel | null {
    const { model, filter } = this;
    return model === null || filter === null ? null : offLevelOf(model, filter, this.heelDeg);
  }

  /** Fits the model to what counts now, if that is enough for anything. */
  learnNow(): void {
    if (this.countedS < FEWEST_PERIODS * this.periodS) {
      this.fit = null;
      this.filter = null;
      this.fitBlocks = 0;
      return;
    }
    let blocks = blocksThatCount(this.marked);
    this.fit = fitRoll(blocks, this.prior, this.fit ?? undefined);
    const later = this.taught || this.isAnsweredFor ? null : this.dropWilderHalf(blocks, this.fit);
    if (later !== null) {
      blocks = later.blocks;
      this.fit = later.fit;
    }
    this.fitBlocks = this.usedBlocks;
    this.filter = heelOfBlocks(blocks, this.fit.model);
    if (this.barred === 0) {
      this.judge = new Judge(this.fit.model);
      this.judge.learn(blocks);
    }
  }

  /** The earlier half counts no longer where the later half is so much quieter. */
  private dropWilderHalf(blocks: HeelBlocks, whole: RollFit): QuieterHalf | null {
    if (this.countedS < 2 * FEWEST_PERIODS * whole.model.periodS) return null;
    const later = quieterHalf(blocks, whole, this.prior);
    if (later === null) return null;
    const first = this.used.indexOf(true);
    this.leaveOut(first, later.from);
    this.dropped.push({
      fromS: (this.firstBlock + first) * BLOCK_S,
      toS: (this.firstBlock + later.from) * BLOCK_S,
    });
    return later;
  }

  /** What it has learned so far, to be put back: `learnNow` may be tried without consequence. */
  held(): () => void {
    const { fit, fitBlocks, filter, judge, usedBlocks } = this;
    const used = [...this.used];
    const dropped = [...this.dropped];
    return () => {
      Object.assign(this, { fit, fitBlocks, filter, judge, usedBlocks, used });
      this.dropped.splice(0, this.dropped.length, ...dropped);
    };
  }

  /** Stretches found too wild for what came after them, since the last call. */
  takeDropped(): Span[] {
    return this.dropped.splice(0);
  }

  private letGo(): void {
    this.dropBlocks(BLOCKS_LET_GO);
    this.learnNow();
  }

  /** The heel now, or null under three roll periods. */
  estimate(): HeelEstimate | null {
    const enough = this.countedS >= FEWEST_PERIODS * this.periodS;
    if (this.fit === null || this.filter === null || !enough) return null;
    return estimateNow(this.fit, this.filter, this.missingDeg);
  }

  /** An accepted reading teaches the day. */
  teach(): void {
    if (this.fit === null) return;
    this.prior = priorAfter(this.fit.logs, this.fit.spread);
    this.taught = true;
  }
}
