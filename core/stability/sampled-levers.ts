import { Fault } from '../fault/fault.ts';
import { checkAllFinite, checkEqualLength, checkRange } from '../quantity/check.ts';
import type { Levers } from './evidence.ts';

const MOST_HEEL_RAD = Math.PI / 2;
/** A heel computed from degrees may lie a rounding beyond the last sample. */
const SLACK_RAD = 1e-9;

/**
 * Righting levers through samples: a cubic between two neighbours, at each sample with the direction
 * of the parabola through it and its neighbours, and the area of just that curve. Heels in radians,
 * the first 0, ascending, the last at most 90 degrees; levers in m. A lever beyond the last sample
 * is a fault, never a guess. Throws `input-too-few` (under three samples), `input-unequal-length`,
 * `input-not-finite`, `input-range`.
 */
export function leversThrough(
  heelsRad: ArrayLike<number>,
  leversM: ArrayLike<number>,
  where = 'levers',
): Levers {
  const heels = Array.from(heelsRad);
  const levers = Array.from(leversM);
  checkSamples(heels, levers, where);
  const slopes = heels.map((_, k) => slopeAt(heels, levers, k));
  const areas = [0];
  for (let k = 0; k + 1 < heels.length; k++) {
    areas.push(areas[k]! + areaOf(piece(heels, levers, slopes, k), 1));
  }
  const mostHeelRad = heels.at(-1)!;
  const placeOf = (heelRad: number) => {
    checkRange(heelRad, -SLACK_RAD, mostHeelRad + SLACK_RAD, `${where}: heel, rad`);
    const k = pieceOf(heels, heelRad);
    const of = piece(heels, levers, slopes, k);
    return { k, of, share: (heelRad - heels[k]!) / of.width };
  };
  const areaToMRad = (heelRad: number): number => {
    const { k, of, share } = placeOf(heelRad);
    return areas[k]! + areaOf(of, share);
  };
  return {
    mostHeelRad,
    leverM: (heelRad) => {
      const { of, share } = placeOf(heelRad);
      return of.a + share * (of.b + share * (of.c + share * of.d));
    },
    areaMRad: (fromRad, toRad) => areaToMRad(toRad) - areaToMRad(fromRad),
  };
}

function checkSamples(heels: readonly number[], levers: readonly number[], where: string): void {
  checkEqualLength(heels, levers, where);
  if (heels.length < 3) throw new Fault('input-too-few', where, `${heels.length} heels`);
  checkAllFinite(heels, `${where}: heel`);
  checkAllFinite(levers, `${where}: lever`);
  if (heels[0] !== 0) throw new Fault('input-range', where, `first heel ${heels[0]}, not upright`);
  checkRange(heels.at(-1)!, 0, MOST_HEEL_RAD + SLACK_RAD, `${where}: last heel, rad`);
  const fall = heels.findIndex((heel, k) => k > 0 && heel <= heels[k - 1]!);
  if (fall > 0) throw new Fault('input-range', where, `heel ${heels[fall]} does not go up`);
}

/** One cubic a + b s + c s2 + d s3, s from 0 to 1 over `width` radians. */
interface Piece {
  readonly width: number;
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

function piece(
  heels: readonly number[],
  levers: readonly number[],
  slopes: readonly number[],
  k: number,
): Piece {
  const width = heels[k + 1]! - heels[k]!;
  const rise = levers[k + 1]! - levers[k]!;
  const first = slopes[k]! * width;
  const last = slopes[k + 1]! * width;
  return {
    width,
    a: levers[k]!,
    b: first,
    c: 3 * rise - 2 * first - last,
    d: first + last - 2 * rise,
  };
}

function areaOf({ width, a, b, c, d }: Piece, share: number): number {
  return width * share * (a + share * (b / 2 + share * (c / 3 + (share * d) / 4)));
}

/** Slope at a sample of the parabola through it and its neighbours, at an end of the last three. */
function slopeAt(heels: readonly number[], levers: readonly number[], k: number): number {
  const middle = Math.min(Math.max(k, 1), heels.length - 2);
  const before = heels[middle]! - heels[middle - 1]!;
  const after = heels[middle + 1]! - heels[middle]!;
  const low = (levers[middle]! - levers[middle - 1]!) / before;
  const high = (levers[middle + 1]! - levers[middle]!) / after;
  const bend = (high - low) / (before + after);
  return low + bend * before + 2 * bend * (heels[k]! - heels[middle]!);
}

function pieceOf(heels: readonly number[], heelRad: number): number {
  let low = 0;
  let high = heels.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (heels[middle]! <= heelRad) low = middle;
    else high = middle - 1;
  }
  return low;
}
