import { median } from '../signal/robust.ts';

/** Blocks whose roughness is remembered, and the fewest by which it is judged. */
const MOST_KEPT = 150;
const FEWEST_KEPT = 20;
const LEARN_EVERY = 10;
/** So many times the usual, in variance, is rough; and so many rough blocks of the last ones are vibration. */
const ROUGH = 30;
const ROUGH_BLOCKS = 3;
const OF_LAST = 5;
/** Second over first differences, squared, beyond which it swings faster than 1.2 Hz. */
const QUICK = 0.5;

/**
 * How much an instrument shakes within a block: machinery, or a loose mounting. The lower middle
 * one of the squared second differences of its samples shows quick shaking, next to nothing of
 * rolling, and nothing of a jump, which is in two of four. Held against the first differences it
 * tells shaking from waves: what swings at f has (2 sin(pi f / 10 Hz))^2 of them, noise three.
 */
export class Roughness {
  private readonly last: number[] = [];
  private readonly kept: number[] = [];
  private readonly rough: boolean[] = [];
  private usual: number | null = null;
  private readonly squares: number[] = [];
  private readonly slopes: number[] = [];
  private sinceLearned = 0;

  /** Times the usual standard deviation, of the last rough block. */
  times = 1;

  push(heelDeg: number | null): void {
    if (heelDeg === null) {
      this.last.length = 0;
      return;
    }
    this.last.push(heelDeg);
    if (this.last.length < 3) return;
    const [a, b, c] = this.last as [number, number, number];
    this.squares.push((a - 2 * b + c) ** 2);
    this.slopes.push((c - b) ** 2);
    this.last.shift();
  }

  /** At the end of a block: is it vibration now? */
  closeBlock(): boolean {
    if (this.squares.length === 0) return this.isVibration();
    const now = lowerMiddle(this.squares);
    const isQuick = now > QUICK * lowerMiddle(this.slopes);
    this.squares.length = 0;
    this.slopes.length = 0;
    const isRough = isQuick && this.usual !== null && now > ROUGH * this.usual;
    if (isRough) this.times = Math.sqrt(now / this.usual!);
    this.rough.push(isRough);
    if (this.rough.length > OF_LAST) this.rough.shift();
    if (!isRough) this.learn(now);
    return this.isVibration();
  }

  private learn(now: number): void {
    this.kept.push(now);
    if (this.kept.length > MOST_KEPT) this.kept.shift();
    this.sinceLearned += 1;
    if (this.kept.length < FEWEST_KEPT || this.sinceLearned < LEARN_EVERY) return;
    this.sinceLearned = 0;
    this.usual = median(this.kept);
  }

  private isVibration(): boolean {
    return this.rough.filter(Boolean).length >= ROUGH_BLOCKS;
  }
}

function lowerMiddle(values: number[]): number {
  return values.sort((a, b) => a - b)[(values.length - 1) >> 1]!;
}
