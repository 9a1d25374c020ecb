import { median } from '../signal/robust.ts';

/** A stretch that may be a run of free roll: begins and ends at an extreme. */
export interface RollStretch {
  readonly fromS: number;
  readonly toS: number;
  readonly nearPeriodS: number;
}

interface Extreme {
  readonly timeS: number;
  readonly heelDeg: number;
}

/** Half a cycle: from one extreme to the next. */
interface HalfSwing {
  readonly from: Extreme;
  readonly to: Extreme;
  readonly swingDeg: number;
  readonly lengthS: number;
}

/** All ours. A turn counts as an extreme when she comes back by this much of noise, or of the range. */
const TURN_NOISES = 6;
const TURN_SHARE = 0.03;
/** Half swings of one rolling differ in length by no more than this factor. */
const LENGTHS_ALIKE = 1.6;
/** A run ends where the swing has fallen to this share of its largest. */
const TAIL_SHARE = 0.06;
/** Swings that grow again by this factor were set going anew. */
const GROWN = 1.45;
/** Missing samples for longer than this part of a period end a stretch. */
const MOST_GAP = 0.5;
const FEWEST_HALVES = 6;
const RANGE_TAIL = 0.002;

/**
 * Where in a record she may have rolled freely: stretches of swings of one length, each beginning at
 * the extreme after its largest swing (what set her going has ended by then) and ending where the
 * swing is lost, grows anew, or samples are missing. Rolling that never falls is among them: the
 * fit judges it. Times rise; at least three cycles a stretch.
 */
export function freeRollStretches(
  timeS: ArrayLike<number>,
  heelDeg: ArrayLike<number>,
): RollStretch[] {
  const halves = halfSwings(extremesOf(timeS, heelDeg, turnDeg(heelDeg)));
  const gaps = gapsOf(timeS);
  return rollings(halves, gaps)
    .flatMap(runsOf)
    .filter((run) => run.length >= FEWEST_HALVES)
    .map((run) => ({
      fromS: run[0]!.from.timeS,
      toS: run.at(-1)!.to.timeS,
      nearPeriodS: 2 * median(run.map((half) => half.lengthS)),
    }));
}

function turnDeg(heelDeg: ArrayLike<number>): number {
  const seconds: number[] = [];
  const step = Math.max(1, Math.floor(heelDeg.length / 20_000));
  for (let k = 2; k < heelDeg.length; k += step) {
    seconds.push(Math.abs(heelDeg[k]! - 2 * heelDeg[k - 1]! + heelDeg[k - 2]!));
  }
  if (seconds.length === 0) return 0;
  // 0.6745: median size of a normal value; 6: variance of a second difference of white noise
  const noiseDeg = median(seconds) / 0.6745 / Math.sqrt(6);
  const sorted = Float64Array.from(heelDeg).sort();
  const last = sorted.length - 1;
  const range =
    sorted[Math.round((1 - RANGE_TAIL) * last)]! - sorted[Math.round(RANGE_TAIL * last)]!;
  return Math.max(TURN_NOISES * noiseDeg, TURN_SHARE * range);
}

/** Turning points: an extreme stands once she has come back from it by `turn`. */
function extremesOf(timeS: ArrayLike<number>, heelDeg: ArrayLike<number>, turn: number): Extreme[] {
  const extremes: Extreme[] = [];
  let highest = 0;
  let lowest = 0;
  let rising: boolean | null = null;
  const at = (k: number): Extreme => ({ timeS: timeS[k]!, heelDeg: heelDeg[k]! });
  for (let k = 1; k < heelDeg.length; k++) {
    if (heelDeg[k]! > heelDeg[highest]!) highest = k;
    if (heelDeg[k]! < heelDeg[lowest]!) lowest = k;
    if (rising !== false && heelDeg[highest]! - heelDeg[k]! > turn) {
      extremes.push(at(highest));
      rising = false;
      lowest = k;
    } else if (rising !== true && heelDeg[k]! - heelDeg[lowest]! > turn) {
      extremes.push(at(lowest));
      rising = true;
      highest = k;
    }
  }
  return extremes;
}

function halfSwings(extremes: readonly Extreme[]): HalfSwing[] {
  return extremes.slice(1).map((to, k) => {
    const from = extremes[k]!;
    const swingDeg = Math.abs(to.heelDeg - from.heelDeg);
    return { from, to, swingDeg, lengthS: to.timeS - from.timeS };
  });
}

/** Ends of the longer spacings between samples, with their lengths. */
function gapsOf(timeS: ArrayLike<number>): { atS: number; lengthS: number }[] {
  const spacings = Array.from(
    { length: Math.max(timeS.length - 1, 0) },
    (_, k) => timeS[k + 1]! - timeS[k]!,
  );
  if (spacings.length === 0) return [];
  const usual = median(spacings.length > 20_000 ? spacings.slice(0, 20_000) : spacings);
  return spacings.flatMap((lengthS, k) =>
    lengthS > 3 * usual ? [{ atS: timeS[k + 1]!, lengthS }] : [],
  );
}

/** Neighbouring half swings of like length, unbroken. */
function rollings(
  halves: readonly HalfSwing[],
  gaps: readonly { atS: number; lengthS: number }[],
): HalfSwing[][] {
  const found: HalfSwing[][] = [];
  let now: HalfSwing[] = [];
  let gap = 0;
  for (const half of halves) {
    while (gap < gaps.length && gaps[gap]!.atS <= half.from.timeS) gap += 1;
    let broken = false;
    for (let g = gap; g < gaps.length && gaps[g]!.atS <= half.to.timeS; g++) {
      broken ||= gaps[g]!.lengthS > MOST_GAP * 2 * half.lengthS;
    }
    const like = now.slice(-4).map((one) => one.lengthS);
    const usual = like.length === 0 ? half.lengthS : median(like);
    const alike = half.lengthS < LENGTHS_ALIKE * usual && usual < LENGTHS_ALIKE * half.lengthS;
    if (broken || !alike) {
      found.push(now);
      now = [];
    }
    if (!broken) now.push(half);
  }
  return [...found, now];
}

/** Cuts rolling where it was set going anew, and leaves the growing part before each largest swing. */
function runsOf(rolling: readonly HalfSwing[]): HalfSwing[][] {
  const runs: HalfSwing[][] = [];
  let rest = rolling;
  while (rest.length >= FEWEST_HALVES) {
    // neither grows nor falls: one stretch, which the fit will not call free
    const sizes = rest.map((half) => half.swingDeg).sort((one, other) => one - other);
    if (sizes.at(-1)! < GROWN * sizes[0]!) return [...runs, [...rest]];
    const top = topOf(rest);
    const end = endOf(rest, top);
    // the swing that began with what set her going is left out; one that only holds on is kept whole
    if (top > 0 && top >= FEWEST_HALVES) runs.push(rest.slice(0, top));
    runs.push(rest.slice(top + 1, end));
    rest = rest.slice(Math.max(end, top + 1));
  }
  return runs;
}

/** The first swing that the following ones fall from before any grows well beyond it. */
function topOf(halves: readonly HalfSwing[]): number {
  let top = 0;
  for (let k = 1; k < halves.length; k++) {
    if (halves[k]!.swingDeg > halves[top]!.swingDeg) top = k;
    else if (halves[k]!.swingDeg < halves[top]!.swingDeg / GROWN) break;
  }
  return top;
}

function endOf(halves: readonly HalfSwing[], top: number): number {
  let least = halves[top]!.swingDeg;
  for (let k = top + 1; k < halves.length; k++) {
    const { swingDeg } = halves[k]!;
    if (swingDeg < TAIL_SHARE * halves[top]!.swingDeg || swingDeg > GROWN * least) return k;
    least = Math.min(least, swingDeg);
  }
  return halves.length;
}
