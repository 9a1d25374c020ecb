import { median, robustSpread } from '../signal/robust.ts';

/** What one instrument shows beyond the others at this moment. */
export interface Odd {
  readonly instrument: string;
  readonly offDeg: number;
}

/** What an instrument lately shows beyond its usual difference to the others. */
export interface Apart {
  readonly offDeg: number;
  /** The same in standard errors of a mean of so few blocks, against the other that says least. */
  readonly errors: number;
}

/** One block of an instrument; `isSound`: the others may be held against it. */
export interface ComparedBlock {
  readonly instrument: string;
  readonly heelDeg: number;
  readonly isSound: boolean;
}

const MOST_KEPT = 240;
const FEWEST_KEPT = 15;
const LEARN_EVERY = 10;
/** So many standard deviations off the usual difference is not rolling; and never less than this. */
const ODD_SPREADS = 8;
const LEAST_ODD_DEG = 0.01;
/** Spreads learned from so few blocks are themselves this uncertain: one part in so many blocks. */
const UNSURE_BLOCKS = 10;
/** Blocks of "lately". */
const LATELY = 10;
/** An instrument's own slow wander (flicker noise) stays under this within a state (our setting). */
const WANDER_DEG = 0.0015;

/** Two instruments, the first less the second. */
class Pair {
  /** Of this state: how the common heel is bent, and the difference. */
  private bends: number[] = [];
  private differences: number[] = [];
  private lately: number[] = [];
  private before: { readonly common: number; readonly difference: number } | null = null;
  private twoBefore: number | null = null;
  /** Degrees of difference for a bend of one degree: height over the roll axis. */
  private aloft = 0;
  private middle = 0;
  private spread = 0;
  private isKnown = false;
  /** The middle as the first blocks of the state had it. */
  private first: number | null = null;
  /** Of the block last judged; null where it is as usual or not known. */
  offDeg: number | null = null;

  beginState(): void {
    this.bends = [];
    this.differences = [];
    this.lately = [];
    this.before = null;
    this.twoBefore = null;
    this.isKnown = false;
    this.first = null;
    this.offDeg = null;
  }

  /** Blocks were left out: what was before is not the block before. */
  interrupt(): void {
    this.before = null;
    this.twoBefore = null;
  }

  /** Judges the block before this one, whose bend is known now. `areSound`: is it learned from? */
  push(one: number, other: number, areSound: boolean): void {
    const { before, twoBefore } = this;
    const common = (one + other) / 2;
    this.twoBefore = before?.common ?? null;
    this.before = { common, difference: one - other };
    this.offDeg = null;
    if (before === null || twoBefore === null) return;
    const bend = common - 2 * before.common + twoBefore;
    const difference = before.difference - this.aloft * bend;
    if (this.isKnown) {
      this.lately.push(difference);
      if (this.lately.length > LATELY) this.lately.shift();
      const unsure = 1 + UNSURE_BLOCKS / this.differences.length;
      const limit = Math.max(ODD_SPREADS * this.spread * unsure, LEAST_ODD_DEG);
      const offDeg = difference - this.middle;
      if (Math.abs(offDeg) > limit) {
        this.offDeg = offDeg;
        return;
      }
    }
    if (areSound) this.keep(bend, before.difference);
  }

  apart(): Apart | null {
    const { first, lately, spread } = this;
    if (first === null || lately.length < LATELY / 2) return null;
    const offDeg = lately.reduce((sum, one) => sum + one, 0) / lately.length - first;
    const error = Math.hypot(
      spread * Math.sqrt(1 / lately.length + Math.PI / 2 / FEWEST_KEPT),
      WANDER_DEG,
    );
    return { offDeg, errors: Math.abs(offDeg) / error };
  }

  private keep(bend: number, difference: number): void {
    this.bends.push(bend);
    this.differences.push(difference);
    if (this.differences.length > MOST_KEPT) {
      this.bends.splice(0, LEARN_EVERY);
      this.differences.splice(0, LEARN_EVERY);
    }
    const count = this.differences.length;
    if (count < FEWEST_KEPT || (this.isKnown && count % LEARN_EVERY !== 0)) return;
    this.aloft = slopeOf(this.bends, this.differences) ?? this.aloft;
    const left = this.differences.map((value, k) => value - this.aloft * this.bends[k]!);
    this.middle = median(left);
    // From one block to the next, so that a drift does not pass for noise.
    this.spread = robustSpread(left.slice(1).map((value, k) => value - left[k]!)) / Math.SQRT2;
    this.isKnown = true;
    this.first ??= this.middle;
  }
}

/**
 * Compares instruments that feel the same roll, block by block, two by two: what one shows against
 * all others is not the vessel. A sensor at a height over the roll axis is tilted by the roll's own
 * acceleration too, which the second difference of heel tells; so different zeros and heights are
 * learned and are no difference. Judges each block when the next has come.
 */
export class OddOneOut {
  private readonly pairs = new Map<string, Pair>();
  private last: readonly ComparedBlock[] = [];

  /** A new state: zeros are learned anew, since scales differ. */
  beginState(): void {
    for (const pair of this.pairs.values()) pair.beginState();
  }

  /** The next block does not follow the last one. */
  interrupt(): void {
    for (const pair of this.pairs.values()) pair.interrupt();
  }

  /**
   * One block of every such instrument. Returns those off their usual difference to every sound
   * other, the farthest first. Of two instruments both are equally far off: the caller must tell
   * which by their own past.
   */
  push(blocks: readonly ComparedBlock[]): Odd[] {
    this.last = blocks;
    blocks.forEach((one, i) => {
      for (const other of blocks.slice(i + 1)) {
        const areSound = one.isSound && other.isSound;
        this.pair(one.instrument, other.instrument).push(one.heelDeg, other.heelDeg, areSound);
      }
    });
    return blocks
      .flatMap(({ instrument }) => {
        const offs = this.against(instrument, (pair) => pair.offDeg);
        if (offs.length === 0 || offs.includes(null)) return [];
        const offDeg = offs.reduce<number>((sum, off) => sum + off!, 0) / offs.length;
        return [{ instrument, offDeg }];
      })
      .sort((a, b) => Math.abs(b.offDeg) - Math.abs(a.offDeg));
  }

  /** What the instrument shows over the last blocks beyond the beginning of the state; null: not known yet. */
  apart(instrument: string): Apart | null {
    const errors = this.against(instrument, (pair) => pair.apart()?.errors ?? null);
    const offs = this.against(instrument, (pair) => pair.apart()?.offDeg ?? null);
    if (errors.length === 0 || errors.includes(null)) return null;
    return {
      offDeg: offs.reduce<number>((sum, off) => sum + off!, 0) / offs.length,
      errors: Math.min(...errors.map((one) => Math.abs(one!))),
    };
  }

  /** How far two lately are from their difference at the beginning of the state, degrees without sign; null: not known. */
  between(one: string, other: string): number | null {
    const pair =
      this.pairs.get(JSON.stringify([one, other])) ?? this.pairs.get(JSON.stringify([other, one]));
    const apart = pair?.apart() ?? null;
    return apart === null ? null : Math.abs(apart.offDeg);
  }

  /** Something of every pair with a sound other, as from this instrument's side. */
  private against(instrument: string, of: (pair: Pair) => number | null): (number | null)[] {
    const at = this.last.findIndex((one) => one.instrument === instrument);
    return this.last.flatMap((other, k) => {
      if (k === at || at < 0 || !other.isSound) return [];
      const isFirst = at < k;
      const value = isFirst
        ? of(this.pair(instrument, other.instrument))
        : of(this.pair(other.instrument, instrument));
      return [value === null || isFirst ? value : -value];
    });
  }

  private pair(one: string, other: string): Pair {
    const name = JSON.stringify([one, other]);
    let pair = this.pairs.get(name);
    if (pair === undefined) {
      pair = new Pair();
      this.pairs.set(name, pair);
    }
    return pair;
  }
}

/** Least squares of differences on bends; null where these do not vary. */
function slopeOf(bends: readonly number[], differences: readonly number[]): number | null {
  const count = bends.length;
  const x = bends.reduce((sum, value) => sum + value, 0) / count;
  const y = differences.reduce((sum, value) => sum + value, 0) / count;
  let square = 0;
  let product = 0;
  bends.forEach((value, k) => {
    square += (value - x) ** 2;
    product += (value - x) * (differences[k]! - y);
  });
  return square > 0 ? product / square : null;
}
