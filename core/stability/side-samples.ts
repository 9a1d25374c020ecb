import type { Near } from '../hull/equilibrium.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import { type AfloatAt, afloatAt, type Floating } from './afloat-at.ts';

const STEP_RAD = radiansFromDegrees(2.5);
const STEPS = 36;
/** Shares of the first step, so that the slope at upright is hers too. */
const FIRST_SHARES = [0, 1 / 8, 1 / 4, 1 / 2];
/**
 * Where a cubic through two neighbours on each side misses a sample by more than this, the intervals
 * beside it are halved: curves run otherwise where a deck edge or a bilge passes through the water. m.
 */
const MOST_MISS_M = 1e-4;
const MOST_HALVINGS = 3;

/** She from upright to 90 degrees to one side: close enough together to be drawn through. */
export interface SideSamples {
  /** 1 to starboard, -1 to port. */
  readonly way: 1 | -1;
  /** Ascending from 0, counted positive to that side. */
  readonly heelsRad: readonly number[];
  readonly at: readonly AfloatAt[];
}

/** At the heels of samples made before (of almost the same weight), or at those the curve itself asks for. */
export function sideSamples(floating: Floating, way: 1 | -1, like?: SideSamples): SideSamples {
  const first = like?.heelsRad ?? [
    ...FIRST_SHARES.map((share) => share * STEP_RAD),
    ...Array.from({ length: STEPS }, (_, k) => (k + 1) * STEP_RAD),
  ];
  const at: AfloatAt[] = [];
  for (const [k, heelRad] of first.entries()) {
    const near = like?.at[k]?.waterline ?? onwards(at, way * heelRad);
    at.push(afloatAt(floating, way * heelRad, near));
  }
  const samples = { way, heelsRad: [...first], at };
  if (like === undefined) refine(floating, samples);
  return samples;
}

/** Trim and level run on as between the last two heels: a beginning that saves cuts. */
function onwards(at: readonly AfloatAt[], heelRad: number): Near | undefined {
  const last = at.at(-1);
  const before = at.at(-2);
  if (last === undefined || before === undefined) return last?.waterline;
  const share = (heelRad - last.heelRad) / (last.heelRad - before.heelRad);
  const run = (of: (one: AfloatAt) => number) => of(last) + share * (of(last) - of(before));
  return {
    trimRad: run(({ waterline }) => waterline.trimRad),
    levelM: run(({ waterline }) => waterline.levelM),
  };
}

function refine(
  floating: Floating,
  samples: { way: 1 | -1; heelsRad: number[]; at: AfloatAt[] },
): void {
  const { way, heelsRad, at } = samples;
  const least = STEP_RAD / 2 ** MOST_HALVINGS;
  for (let turn = 0; turn < MOST_HALVINGS; turn++) {
    const wanted = new Set<number>();
    for (let k = 2; k + 2 < at.length; k++) {
      if (missOf(heelsRad, at, k) <= MOST_MISS_M) continue;
      for (const left of [k - 1, k]) {
        if (heelsRad[left + 1]! - heelsRad[left]! > least * 1.5) wanted.add(left);
      }
    }
    if (wanted.size === 0) return;
    for (const left of [...wanted].sort((a, b) => b - a)) {
      const heelRad = (heelsRad[left]! + heelsRad[left + 1]!) / 2;
      const found = afloatAt(floating, way * heelRad, at[left]!.waterline);
      heelsRad.splice(left + 1, 0, heelRad);
      at.splice(left + 1, 0, found);
    }
  }
}

/** By how much lever or level at a sample differ from the cubic through its four neighbours. */
function missOf(heelsRad: readonly number[], at: readonly AfloatAt[], k: number): number {
  const around = [k - 2, k - 1, k + 1, k + 2];
  const here = heelsRad[k]!;
  const weights = around.map((i) =>
    around.reduce(
      (product, j) =>
        j === i ? product : (product * (here - heelsRad[j]!)) / (heelsRad[i]! - heelsRad[j]!),
      1,
    ),
  );
  const miss = (of: (one: AfloatAt) => number) =>
    Math.abs(of(at[k]!) - around.reduce((sum, i, n) => sum + weights[n]! * of(at[i]!), 0));
  return Math.max(
    miss((one) => one.knM - one.liquidsM),
    miss((one) => one.waterline.levelM),
  );
}
