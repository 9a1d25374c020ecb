import { Fault } from '../fault/fault.ts';
import { lowPassKernel } from '../signal/low-pass.ts';

/** One value on the 10 Hz grid; null where the samples around it do not reach or have a gap. */
export interface SmoothedSample {
  /** A whole number of tenths of a second, in the clock of the samples. No delay is left in it. */
  readonly atS: number;
  readonly value: number | null;
}

const GRID_HZ = 10;
const CUT_OFF_HZ = 3;
const HALF_WIDTH_S = 0.5;
/** Samples farther apart than this have a gap between them. */
const MOST_SPACING_S = 0.15;
/** After a longer gap the grid jumps instead of counting through it. */
const MOST_NULLS = 20;
const SLOTS = 16;

/** Sums for one grid time over the samples within the kernel, in distances from that time. */
interface Slot {
  weight: number;
  weighted: number;
  lean: number;
  share: number;
  shareT: number;
  shareTt: number;
  shareY: number;
  shareTy: number;
}

const emptySlot = (): Slot => ({
  weight: 0,
  weighted: 0,
  lean: 0,
  share: 0,
  shareT: 0,
  shareTt: 0,
  shareY: 0,
  shareTy: 0,
});

/**
 * Board-rate samples of exact, irregular times to a uniform 10 Hz: a linear-phase low-pass
 * (3 Hz, half width 0.5 s) whose weight is each sample's share of time, with the lean that
 * irregular times leave taken out by the slope, so that a constant and a straight line come out
 * exactly and the value at `atS` is the smoothed value of that very time. It is known half a
 * second later. A gap (over 0.15 s, missing samples included) is never bridged: values whose
 * half second on either side touches it are null.
 *
 * Constant memory; the same samples give the same values however they are grouped. Roll down to
 * 2.5 s passes within 1 %; from 7 Hz on less than 0.2 % is left, so 25 or 50 Hz of machinery does not fold into roll.
 */
export class Smoother {
  /** Samples that came at or before the time of one already taken, and were not used. */
  late = 0;
  /** Seconds from a grid time until its value can be known, but for one sample's spacing. */
  static readonly delayS = HALF_WIDTH_S;
  private readonly kernel = lowPassKernel(CUT_OFF_HZ, HALF_WIDTH_S);
  private readonly slots: Slot[] = Array.from({ length: SLOTS }, emptySlot);
  private before: number | null = null;
  private timeS: number | null = null;
  private value = 0;
  private unbrokenSinceS = 0;
  private nextGrid = 0;

  /**
   * One sample in order of time; a null value is a missing sample. Returns what has become known.
   * Throws `input-not-finite` for a time or value that is no number.
   */
  push(timeS: number, value: number | null): readonly SmoothedSample[] {
    if (!Number.isFinite(timeS) || (value !== null && !Number.isFinite(value))) {
      throw new Fault('input-not-finite', `sample at ${timeS} s`, String(value));
    }
    if (value === null) return [];
    if (this.timeS === null) {
      this.begin(timeS, value);
      this.nextGrid = Math.ceil(timeS * GRID_HZ);
      return [];
    }
    const spacingS = timeS - this.timeS;
    if (spacingS <= 0) {
      this.late += 1;
      return [];
    }
    const broken = spacingS > MOST_SPACING_S;
    const rightS = broken ? 0 : spacingS;
    const leftS = this.before === null ? 0 : this.timeS - this.before;
    this.add(this.timeS, this.value, (leftS + rightS) / 2);
    const known = this.knownAt(this.timeS);
    if (broken) this.begin(timeS, value);
    else {
      this.before = this.timeS;
      this.timeS = timeS;
      this.value = value;
    }
    return known;
  }

  private begin(timeS: number, value: number): void {
    this.before = null;
    this.timeS = timeS;
    this.value = value;
    this.unbrokenSinceS = timeS;
  }

  private add(timeS: number, value: number, shareS: number): void {
    const first = Math.max(Math.ceil((timeS - HALF_WIDTH_S) * GRID_HZ), this.nextGrid);
    const last = Math.floor((timeS + HALF_WIDTH_S) * GRID_HZ);
    for (let grid = first; grid <= last; grid++) {
      const offsetS = timeS - grid / GRID_HZ;
      const weight = shareS * this.kernel.at(Math.abs(offsetS));
      const slot = this.slots[((grid % SLOTS) + SLOTS) % SLOTS]!;
      slot.weight += weight;
      slot.weighted += weight * value;
      slot.lean += weight * offsetS;
      slot.share += shareS;
      slot.shareT += shareS * offsetS;
      slot.shareTt += shareS * offsetS * offsetS;
      slot.shareY += shareS * value;
      slot.shareTy += shareS * offsetS * value;
    }
  }

  /** Everything whose right half second is complete at this time. */
  private knownAt(timeS: number): SmoothedSample[] {
    const known: SmoothedSample[] = [];
    const last = Math.floor((timeS - HALF_WIDTH_S) * GRID_HZ);
    if (last - this.nextGrid > MOST_NULLS) {
      for (const slot of this.slots) Object.assign(slot, emptySlot());
      const jumpTo = Math.max(last - MOST_NULLS, this.nextGrid);
      this.nextGrid = jumpTo;
    }
    for (; this.nextGrid <= last; this.nextGrid++) {
      const slot = this.slots[((this.nextGrid % SLOTS) + SLOTS) % SLOTS]!;
      const atS = this.nextGrid / GRID_HZ;
      const whole = this.unbrokenSinceS <= atS - HALF_WIDTH_S;
      known.push({ atS, value: whole ? slotValue(slot) : null });
      Object.assign(slot, emptySlot());
    }
    return known;
  }
}

function slotValue(slot: Slot): number {
  const meanT = slot.shareT / slot.share;
  const meanY = slot.shareY / slot.share;
  const slope = (slot.shareTy - slot.shareT * meanY) / (slot.shareTt - slot.shareT * meanT);
  return (slot.weighted - slope * slot.lean) / slot.weight;
}
