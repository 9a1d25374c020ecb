import { FASTEST_PACE, SLOWEST_PACE } from './rig-types.ts';

/** Wall seconds a slice stands for, at least and at most. */
const SHORTEST_SLICE_S = 0.003;
const LONGEST_SLICE_S = 0.01;
/** A slice never covers more simulated time than chips may be left alone. */
const LONGEST_SLICE_WORLD_S = 0.4;
/** How far simulated time may lag behind the wall before the lag is forgiven: the pace falls. */
const MOST_LAG_S = 0.06;
/** Held pace is measured over this. */
const MEASURED_S = 1;

/** Turns wall seconds into slices of simulated time at a pace, never faster than slices get done. */
export class Pacer {
  readonly #wallS: () => number;
  #pace: number;
  #anchorWallS: number;
  #anchorWorldS = 0;
  readonly #done: { wallS: number; worldS: number }[] = [];

  /** `wallS`: the machine's monotonic clock. RangeError for a pace outside 1 to 50. */
  constructor(pace: number, wallS: () => number) {
    this.#wallS = wallS;
    this.#pace = checkedPace(pace);
    this.#anchorWallS = wallS();
    this.#done.push({ wallS: this.#anchorWallS, worldS: 0 });
  }

  get pace(): number {
    return this.#pace;
  }

  /** From `horizonS`, the end of the last slice, simulated time goes on at this pace. */
  setPace(pace: number, horizonS: number): void {
    this.#pace = checkedPace(pace);
    this.#anchor(horizonS, this.#wallS());
  }

  /** End of the slice that is due after `horizonS`, or null when it is too early for one. */
  sliceUntilS(horizonS: number): number | null {
    const wallS = this.#wallS();
    const dueS = this.#anchorWorldS + (wallS - this.#anchorWallS) * this.#pace - horizonS;
    if (dueS > MOST_LAG_S * this.#pace) this.#anchor(horizonS, wallS - MOST_LAG_S);
    if (dueS < SHORTEST_SLICE_S * this.#pace) return null;
    return horizonS + Math.min(dueS, LONGEST_SLICE_S * this.#pace, LONGEST_SLICE_WORLD_S);
  }

  /** Both boards have lived until here. */
  held(worldS: number): void {
    const wallS = this.#wallS();
    this.#done.push({ wallS, worldS });
    while (this.#done.length > 2 && this.#done[1]!.wallS <= wallS - MEASURED_S) this.#done.shift();
  }

  /** Simulated seconds a wall second over the last one; 0 before anything was done. */
  paceHeld(): number {
    const first = this.#done[0]!;
    const last = this.#done.at(-1)!;
    const passedS = this.#wallS() - first.wallS;
    return passedS > 0 ? (last.worldS - first.worldS) / passedS : 0;
  }

  #anchor(worldS: number, wallS: number): void {
    this.#anchorWorldS = worldS;
    this.#anchorWallS = wallS;
  }
}

function checkedPace(pace: number): number {
  if (!(pace >= SLOWEST_PACE && pace <= FASTEST_PACE)) {
    throw new RangeError(`pace ${pace} is not between ${SLOWEST_PACE} and ${FASTEST_PACE}`);
  }
  return pace;
}
