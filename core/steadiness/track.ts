import {
  blocksThatCount,
  blocksToAnswerFor,
  halfRangeDeg,
  type MarkedBlocks,
  type Span,
  windowOf,
} from './block-marks.ts';
import type { HeelEstimate } from './estimate.ts';
import { estimateNow } from './estimate-now.ts';
import { fitRoll, heelOfBlocks, type RollFit } from './fit-roll.ts';
import { type HeelBlocks, RESTART_AFTER_BLOCKS } from './heel-blocks.ts';
import type { HeelFilter } from './heel-filter.ts';
import { Judge, type Suspicion } from './judge.ts';
import { PROMPT_S } from './leading.ts';
import { type QuieterHalf, quieterHalf } from './quieter-half.ts';
import { BLOCK_S, meanSpreadDeg, type RollModel, SAMPLES_IN_BLOCK } from './roll-model.ts';
import { FIRST_PRIOR, modelOf, priorAfter, type RollPrior } from './roll-prior.ts';
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
/** Spreads of the mean of two periods that still pass for rolling. */
const OFF_LEVEL_SPREADS = 2.5;

/**
 * One instrument through the day: its samples of the present state as blocks, which of them
 * count, the model they speak for and the heel by it, and the judge of what comes next.
 */
export class Track {
  /** Receiver time of the last sample that had a value; null before the first. */
  lastS: number | null = null;
  judge: Judge | null = null;
  private prior: RollPrior = FIRST_PRIOR;
  private taught = false;
  private firstBlock = 0;
  private countFromS = Number.POSITIVE_INFINITY;
  /** When this state's own time begins, whatever was begun anew within it. */
  private stateFromS = Number.POSITIVE_INFINITY;
  private isAnsweredFor = false;
  private heelDeg: number[] = [];
  private used: boolean[] = [];
  private usedBlocks = 0;
  private barred = 0;
  private missingRun = RESTART_AFTER_BLOCKS;
  private partial: { block: number; sum: number; count: number } | null = null;
  private fit: RollFit | null = null;
  private fitBlocks = 0;
  private filter: HeelFilter | null = null;
  private readonly dropped: Span[] = [];

  constructor(readonly watched: WatchedInstrument) {}

  get isPrompt(): boolean {
    return this.watched.settlingS <= PROMPT_S;
  }

  get countedS(): number {
    return this.usedBlocks * BLOCK_S;
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

  beginState(atS: number): void {
    this.countFromS = atS + Math.max(this.watched.settlingS, AFTER_LANDING_S);
    this.stateFromS = this.countFromS;
    this.isAnsweredFor = false;
    this.firstBlock = Math.floor(Math.round(atS / SAMPLE_S) / SAMPLES_IN_BLOCK);
    this.heelDeg = [];
    this.used = [];
    this.usedBlocks = 0;
    this.partial = null;
    this.barred = 0;
    this.forgetFit();
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
    const first = Math.max(0, Math.floor(fromS / BLOCK_S) - this.firstBlock);
    const before = this.usedBlocks;
    this.leaveOut(first, this.used.length);
    if (this.usedBlocks < before) this.learnNow();
  }

  private leaveOut(from: number, to: number): void {
    for (let k = from; k < to; k++) {
      if (this.used[k]) this.usedBlocks -= 1;
      this.used[k] = false;
    }
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

  private get marked(): MarkedBlocks {
    return { firstBlock: this.firstBlock, heelDeg: this.heelDeg, used: this.used };
  }

  /** Everything counted so far counts no longer, nor is the next judged by it: she lies otherwise now. */
  startOver(fromS: number): void {
    this.used.fill(false);
    this.usedBlocks = 0;
    this.countFromS = Math.max(this.countFromS, fromS);
    this.forgetFit();
    this.judge = null;
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
    if (this.partial !== null && this.partial.block !== block) this.closePartial();
    while (this.firstBlock + this.heelDeg.length < block) this.addBlock(Number.NaN);
    this.partial ??= { block, sum: 0, count: 0 };
    this.partial.sum += heelDeg ?? Number.NaN;
    this.partial.count += 1;
    if (this.partial.count < SAMPLES_IN_BLOCK) return null;
    return this.closePartial();
  }

  private closePartial(): Suspicion | null {
    const { sum, count } = this.partial!;
    this.partial = null;
    return this.addBlock(count === SAMPLES_IN_BLOCK ? sum / count : Number.NaN);
  }

  private addBlock(heelDeg: number): Suspicion | null {
    const startS = (this.firstBlock + this.heelDeg.length) * BLOCK_S;
    const counts = this.barred === 0 && startS >= this.countFromS && !Number.isNaN(heelDeg);
    this.heelDeg.push(heelDeg);
    this.used.push(counts);
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

  /** Half the range of the last blocks that have a value, used or not. */
  recentRangeDeg(blocks = 12): number {
    return halfRangeDeg(this.heelDeg.slice(-blocks));
  }

  /**
   * How far the heel over the last two roll periods, used or not, lies off the heel counted
   * before, and how far it may by rolling alone; null where nothing was counted before.
   */
  offLevel(): { offDeg: number; mayDeg: number } | null {
    const model = this.model;
    if (model === null || this.filter === null) return null;
    const blocks = Math.round((2 * model.periodS) / BLOCK_S);
    const recent = this.heelDeg.slice(-blocks).filter((value) => !Number.isNaN(value));
    if (recent.length < blocks) return null;
    const mean = recent.reduce((sum, value) => sum + value, 0) / blocks;
    const mayDeg =
      OFF_LEVEL_SPREADS *
      Math.hypot(meanSpreadDeg(model, blocks * BLOCK_S), Math.sqrt(this.filter.variance));
    return { offDeg: mean - this.filter.heelDeg, mayDeg };
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
    this.leaveOut(0, BLOCKS_LET_GO);
    this.heelDeg.splice(0, BLOCKS_LET_GO);
    this.used.splice(0, BLOCKS_LET_GO);
    this.firstBlock += BLOCKS_LET_GO;
    this.learnNow();
  }

  /** The heel now, or null under three roll periods. */
  estimate(): HeelEstimate | null {
    const enough = this.countedS >= FEWEST_PERIODS * this.periodS;
    if (this.fit === null || this.filter === null || !enough) return null;
    return estimateNow(this.fit, this.filter);
  }

  /** An accepted reading teaches the day. */
  teach(): void {
    if (this.fit === null) return;
    this.prior = priorAfter(this.fit.logs, this.fit.spread);
    this.taught = true;
  }

  /** First and last time of what counts, receiver seconds; null when nothing does. */
  window(): Span | null {
    return windowOf(this.marked);
  }

  /** The last complete block: its number in time, and its mean (NaN when missing). */
  lastBlock(): { block: number; heelDeg: number } {
    const block = this.firstBlock + this.heelDeg.length - 1;
    return { block, heelDeg: this.heelDeg.at(-1) ?? Number.NaN };
  }
}
