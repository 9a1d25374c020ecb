import type { SmoothedSample } from './smoothing.ts';

/** How much one instrument's samples of a second leave their smoothed course: machinery, or knocks. */
export interface ShakingMark {
  /** End of the second, in the clock of the samples. */
  readonly toS: number;
  /** Root mean square of the samples less their smoothed course, degrees. */
  readonly rmsDeg: number;
  /** How often it swings to and fro, Hz, by its changes of side; as sampled: faster shaking looks slower. */
  readonly frequencyHz: number;
  /** Largest sample of the second without its sign, degrees. */
  readonly mostDeg: number;
}

const FEWEST_OF_SECOND = 5;
/** More samples than any board gives in the two seconds until the smoothed course is known. */
const MOST_WAITING = 2000;

/**
 * Sets the samples of an instrument, at board rate, against their smoothed course, second by
 * second. What the smoothing takes out is seen nowhere later, and it hides samples at the end of an
 * instrument's range. Same samples, same marks, however they are grouped; constant memory.
 */
export class Shaking {
  private readonly waiting: { timeS: number; heelDeg: number }[] = [];
  private last: SmoothedSample | null = null;
  private second: number | null = null;
  private squares = 0;
  private count = 0;
  private mostDeg = 0;
  private side = 0;
  private changes = 0;

  /** A sample as converted, degrees; null: missing. In order of time. */
  push(timeS: number, heelDeg: number | null): void {
    if (heelDeg === null) return;
    this.waiting.push({ timeS, heelDeg });
    if (this.waiting.length > MOST_WAITING) this.waiting.shift();
  }

  /** The next value of the smoothed course; returns the marks of seconds that are over. */
  smoothed(next: SmoothedSample): ShakingMark[] {
    const marks: ShakingMark[] = [];
    const { last } = this;
    this.last = next;
    let taken = 0;
    for (const sample of this.waiting) {
      if (sample.timeS > next.atS) break;
      taken += 1;
      if (last === null || last.value === null || next.value === null || sample.timeS < last.atS)
        continue;
      const share = (sample.timeS - last.atS) / (next.atS - last.atS);
      const courseDeg = last.value + share * (next.value - last.value);
      this.take(sample.timeS, sample.heelDeg, sample.heelDeg - courseDeg, marks);
    }
    this.waiting.splice(0, taken);
    return marks;
  }

  private take(timeS: number, heelDeg: number, offDeg: number, marks: ShakingMark[]): void {
    const second = Math.floor(timeS);
    if (this.second !== null && second !== this.second) {
      if (this.count >= FEWEST_OF_SECOND) {
        const rmsDeg = Math.sqrt(this.squares / this.count);
        const frequencyHz = this.changes / 2;
        marks.push({ toS: this.second + 1, rmsDeg, frequencyHz, mostDeg: this.mostDeg });
      }
      this.squares = 0;
      this.count = 0;
      this.mostDeg = 0;
      this.changes = 0;
    }
    this.second = second;
    this.squares += offDeg * offDeg;
    this.count += 1;
    const side = Math.sign(offDeg);
    if (side !== 0 && side !== this.side) {
      this.changes += 1;
      this.side = side;
    }
    this.mostDeg = Math.max(this.mostDeg, Math.abs(heelDeg));
  }
}
