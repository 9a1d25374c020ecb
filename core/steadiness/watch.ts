import { Fault } from '../fault/fault.ts';
import type { ShakingMark } from '../sample/shaking.ts';
import type { AccuracySettings } from './accuracy.ts';
import { Disturbances } from './disturbances.ts';
import { joinedEstimate, type Part } from './joined.ts';
import { isOf, type Overruled } from './not-used.ts';
import { BLOCK_S } from './roll-model.ts';
import { Track } from './track.ts';
import {
  drawPicture,
  leadingParts,
  partsOf,
  periodOf,
  type SteadyMemory,
} from './watch-picture.ts';
import type { NotUsed, TakenReading, Watch, WatchPicture, WatchSettings } from './watch-types.ts';

/** Names how a reading was estimated; a reading is recomputed only under the same. */
export const ESTIMATOR = 'whole-roll-3';

const TARGET_DEG = 0.006;
const BEST_AFTER_S = 90;
const WORST_DEG = 0.03;
/** Smoothed samples come this long after their time; on top of it counts as silence. */
const SMOOTHING_DELAY_S = 1;
const SILENT_AFTER_S = SMOOTHING_DELAY_S + 1.5;
const SAMPLE_RATE_HZ = 10;
/** Blocks after which a sample of any instrument has come. */
const LAG_BLOCKS = 8;

/** A watch over these instruments; nothing is known of the day yet. Pure and without a clock. */
export function createWatch(settings: WatchSettings): Watch {
  return new SteadinessWatch(settings);
}

class SteadinessWatch implements Watch {
  private readonly tracks: readonly Track[];
  private readonly disturbances: Disturbances;
  private accuracy: AccuracySettings;
  private readonly zeroDeg = new Map<string, number>();
  private readonly memory: SteadyMemory = { steady: false, outOfReach: false };
  private begun = false;
  private readonly newestOfS = new Map<string, number>();
  private newestS = Number.NEGATIVE_INFINITY;
  private reviewedBlock = -1;
  private lagBlock = -1;

  constructor(settings: WatchSettings) {
    this.tracks = settings.instruments.map((instrument) => new Track(instrument));
    this.disturbances = new Disturbances(this.tracks);
    this.accuracy = {
      targetStandardErrorDeg: settings.targetStandardErrorDeg ?? TARGET_DEG,
      bestAfterS: settings.bestAfterS ?? BEST_AFTER_S,
      worstStandardErrorDeg: settings.worstStandardErrorDeg ?? WORST_DEG,
    };
  }

  beginState(atS: number): void {
    this.begun = true;
    this.memory.steady = false;
    this.memory.outOfReach = false;
    this.endCarrying(atS);
    this.disturbances.beginState(atS);
  }

  carrying(atS: number): void {
    this.memory.steady = false;
    const { stretches } = this.disturbances;
    if (stretches.of(null)?.kind === 'carrying') return;
    this.disturbances.beginState(atS);
    for (const track of this.tracks) track.bar(atS);
    const evidence = 'a weight is being moved';
    stretches.begin({ kind: 'carrying', fromS: atS, noticedS: atS, instrument: null, evidence });
  }

  overrule(stretch: Overruled): void {
    const { stretches } = this.disturbances;
    stretches.overrule(stretch);
    for (const track of this.tracks) {
      const { instrument } = track.watched;
      if (isOf(stretch.instruments, instrument))
        track.countAfterAll(stretch, stretches.standing(instrument));
    }
  }

  target(standardErrorDeg: number, missingDeg: number): void {
    this.accuracy = { ...this.accuracy, targetStandardErrorDeg: standardErrorDeg };
    for (const track of this.tracks) track.missingDeg = missingDeg;
  }

  private endCarrying(atS: number): void {
    const { stretches } = this.disturbances;
    const carrying = stretches.of(null);
    if (carrying?.kind === 'carrying') stretches.end(carrying, atS, false);
  }

  push(instrument: string, atS: number, heelDeg: number | null): void {
    const track = this.tracks.find((one) => one.watched.instrument === instrument);
    if (track === undefined) {
      throw new Fault('input-shape', 'steadiness watch', `instrument ${instrument} is not watched`);
    }
    if (!Number.isFinite(atS) || (heelDeg !== null && !Number.isFinite(heelDeg))) {
      throw new Fault('input-not-finite', `${instrument} at ${atS} s`, String(heelDeg));
    }
    // What is late or doubled has had its turn: looked at again, it would pass for a jump.
    if (atS <= (this.newestOfS.get(instrument) ?? Number.NEGATIVE_INFINITY)) return;
    this.newestOfS.set(instrument, atS);
    if (!this.begun) this.beginState(atS);
    this.newestS = Math.max(this.newestS, atS);
    this.disturbances.inspect(track, atS, heelDeg, this.newestS);
    const suspicion = track.push(atS, heelDeg);
    if (suspicion !== null) this.disturbances.judged(track, suspicion, atS);
    const block = Math.floor(this.newestS / BLOCK_S);
    if (block === this.reviewedBlock && suspicion === null) return;
    this.learnLags(block);
    this.reviewedBlock = block;
    this.disturbances.review(this.newestS);
    // What the verdict remembers hangs on samples only: a replay has no screens that ask.
    this.disturbances.listen(this.newestS, SILENT_AFTER_S);
    this.draw(this.newestS, this.memory);
  }

  /** Slow instruments against the first prompt one, block by block as both are complete. */
  private learnLags(block: number): void {
    const prompt = this.usable().find((track) => track.isPrompt);
    if (prompt === undefined) return;
    // Samples of two instruments come seconds apart: what is this old has come from both.
    const complete = block - LAG_BLOCKS;
    for (let next = Math.max(this.lagBlock + 1, complete - LAG_BLOCKS); next <= complete; next++) {
      const promptDeg = prompt.heelOfBlock(next);
      if (promptDeg === undefined) continue;
      for (const track of this.usable()) if (!track.isPrompt) track.followPrompt(next, promptDeg);
    }
    this.lagBlock = Math.max(this.lagBlock, complete);
  }

  shaken(instrument: string, mark: ShakingMark): void {
    const track = this.tracks.find((one) => one.watched.instrument === instrument);
    track?.rawShaking.push(mark);
  }

  picture(nowS: number): WatchPicture {
    return this.draw(nowS, { ...this.memory });
  }

  private draw(nowS: number, memory: SteadyMemory): WatchPicture {
    return drawPicture({
      nowS,
      tracks: this.tracks,
      stretches: this.disturbances.shownAt(nowS, SILENT_AFTER_S),
      accuracy: this.accuracy,
      zeroDeg: this.zeroDeg,
      memory,
    });
  }

  takeReading(nowS: number): TakenReading {
    const reading = this.reading(nowS);
    this.accept();
    return reading;
  }

  reading(nowS: number): TakenReading {
    const { joined } = this.picture(nowS);
    if (!joined.readable) {
      throw new Fault('act-not-steady', 'reading', joined.whyNot ?? joined.reason);
    }
    const asBefore = this.tracks.map((track) => track.held());
    try {
      return this.readNow();
    } finally {
      for (const restore of asBefore) restore();
    }
  }

  accept(): void {
    for (const track of this.tracks) track.learnNow();
    const parts = partsOf(this.tracks, this.disturbances.stretches);
    this.learnZeros(parts);
    for (const { track } of parts) track.teach();
  }

  private readNow(): TakenReading {
    const { stretches } = this.disturbances;
    for (const track of this.tracks) track.learnNow();
    const parts = partsOf(this.tracks, stretches);
    const whole = joinedEstimate(leadingParts(parts), this.zeroDeg);
    if (whole === null) throw new Fault('act-not-steady', 'reading', 'no instrument has settled');
    const tracks = parts.map((part) => part.track);
    const windows = tracks.map((track) => track.window()!);
    const leading = periodOf(parts);
    const model = leading?.model ?? null;
    return {
      fromS: Math.min(...windows.map(({ fromS }) => fromS)),
      toS: Math.max(...windows.map(({ toS }) => toS)),
      countedS: Math.max(...tracks.map((track) => track.countedS)),
      joined: measured(whole),
      instruments: parts.map(({ track, estimate }) => ({
        instrument: track.watched.instrument,
        label: track.watched.label,
        ...measured(estimate),
        sampleRateHz: SAMPLE_RATE_HZ,
      })),
      rollPeriodS: model?.periodS ?? null,
      rollPeriodUncertaintyS: leading?.track.periodUncertaintyS ?? null,
      dampingRatio: model?.dampingRatio ?? null,
    };
  }

  /** What each shows beyond the mean of all, once, from the first reading by more than one. */
  private learnZeros(parts: readonly Part[]): void {
    if (this.zeroDeg.size > 0 || parts.length < this.usable().length) return;
    const mean = parts.reduce((sum, part) => sum + part.estimate.heelDeg, 0) / parts.length;
    for (const part of parts) this.zeroDeg.set(part.instrument, part.estimate.heelDeg - mean);
  }

  private usable(): Track[] {
    return this.tracks.filter((track) => track.watched.refused === null);
  }

  finished(): readonly NotUsed[] {
    return this.disturbances.stretches.report();
  }
}

function measured({
  heelDeg,
  standardErrorDeg,
  degreesOfFreedom,
}: {
  heelDeg: number;
  standardErrorDeg: number;
  degreesOfFreedom: number;
}) {
  return { heelDeg, standardErrorDeg, degreesOfFreedom };
}
