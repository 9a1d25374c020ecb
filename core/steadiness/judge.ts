import { Cusum } from '../signal/cusum.ts';
import type { HeelBlocks } from './heel-blocks.ts';
import { HeelFilter } from './heel-filter.ts';
import { BLOCK_S, type RollModel } from './roll-model.ts';

/** What a judge suspects. `share`: 1 and more is an alarm. */
export interface Suspicion {
  readonly share: number;
  readonly kind: 'gust' | 'wake';
  /** Blocks since it seems to have begun. */
  readonly blocks: number;
}

/** Level: standard deviations a block that count as nothing, and the pile that is an alarm. */
const LEVEL_ALLOWANCE = 0.5;
const LEVEL_ALARM = 14;
/**
 * Energy: sum of the logarithm of the likelihood ratio of threefold variance; a false alarm takes
 * about e^alarm blocks (Wald), which is weeks.
 */
const ENERGY_RATIO = 3;
const ENERGY_ALARM = 14;
const MOST_ENERGY = 4 * ENERGY_ALARM;
/** No single block counts for more than this many standard deviations. */
const MOST_DEVIATION = 6;
/** Real ringing departs from the linear model by this part of its amplitude in a block. */
const RINGING_MISFIT = 0.04;
/** Mean squared deviation under which the vessel is calm again. */
const CALM_ENERGY = 2;

/**
 * Tells the vessel's own rolling from something done to her. Each block is held against what the
 * model and everything before it predict; under the model the deviations are independent with
 * variance 1, so deviations that pile up to one side are a change of level, and too much energy
 * is a forcing the model does not know. Sees heel only: never moments, line or GM.
 */
export class Judge {
  readonly model: RollModel;
  private filter: HeelFilter | null = null;
  private readonly level = new Cusum(0, LEVEL_ALLOWANCE);
  private energy = 0;
  private energyRun = 0;
  private readonly recent: number[] = [];
  private readonly recentSize: number;

  constructor(model: RollModel) {
    this.model = model;
    this.recentSize = Math.ceil(Math.max(model.periodS, 4) / BLOCK_S);
  }

  get amplitudeDeg(): number {
    return this.filter?.amplitudeDeg ?? 0;
  }

  /** Takes blocks in without suspecting any. */
  learn(blocks: HeelBlocks): void {
    for (let k = 0; k < blocks.heelDeg.length; k++) {
      const ringing = blocks.ringingDeg[k]!;
      if (!Number.isNaN(ringing)) this.letRing(ringing);
      this.advance(blocks.heelDeg[k]!);
    }
  }

  /** A ringing of about this size may begin: a weight has landed, a disturbance is over. */
  letRing(ringingDeg: number): void {
    this.filter?.letRing(2 * ringingDeg + 3 * this.model.rollDeg);
    this.level.reset();
    this.energy = 0;
    this.energyRun = 0;
    this.recent.length = 0;
  }

  /** The next block, NaN when missing. */
  push(heelDeg: number): Suspicion {
    const deviation = this.advance(heelDeg);
    if (deviation !== null) this.pileUp(deviation);
    return this.suspicion();
  }

  /** True when the last period looked like the model again. */
  calm(): boolean {
    if (this.recent.length < this.recentSize) return false;
    return this.recent.reduce((sum, value) => sum + value, 0) / this.recent.length < CALM_ENERGY;
  }

  suspicion(): Suspicion {
    const level = Math.max(this.level.up, this.level.down) / LEVEL_ALARM;
    const energy = this.energy / ENERGY_ALARM;
    if (level >= energy) {
      const blocks = this.level.up > this.level.down ? this.level.upRun : this.level.downRun;
      return { share: level, kind: 'gust', blocks };
    }
    return { share: energy, kind: 'wake', blocks: this.energyRun };
  }

  private advance(heelDeg: number): number | null {
    if (Number.isNaN(heelDeg)) {
      this.filter?.skip();
      return null;
    }
    if (this.filter === null) {
      this.filter = new HeelFilter(this.model, heelDeg);
      this.filter.letRing(10 * this.model.rollDeg + 3);
    }
    const amplitudeDeg = this.filter.amplitudeDeg;
    this.filter.push(heelDeg);
    const { deviationDeg, deviationVariance } = this.filter;
    return deviationDeg / Math.sqrt(deviationVariance + (RINGING_MISFIT * amplitudeDeg) ** 2);
  }

  private pileUp(deviation: number): void {
    const held = Math.max(-MOST_DEVIATION, Math.min(MOST_DEVIATION, deviation));
    this.level.push(held);
    const evidence = 0.5 * (held * held * (1 - 1 / ENERGY_RATIO) - Math.log(ENERGY_RATIO));
    this.energy = Math.max(0, Math.min(MOST_ENERGY, this.energy + evidence));
    this.energyRun = this.energy > 0 ? this.energyRun + 1 : 0;
    this.recent.push(held * held);
    if (this.recent.length > this.recentSize) this.recent.shift();
  }
}
