import { createRandom } from '#core/numerics/random.ts';

export interface ReleasedRoll {
  readonly lengthS: number;
  readonly rateHz?: number;
  readonly periodS?: number;
  readonly dampingRatio?: number;
  /** d in x'' + 2 z w x' + d |x'| x' + w^2 x = 0, per degree. */
  readonly quadraticPerDeg?: number;
  readonly releases: readonly { readonly atS: number; readonly heelDeg: number }[];
  /** Standard deviation of the roll that chance drives for ever. */
  readonly drivenDeg?: number;
  readonly noiseDeg?: number;
  readonly offsetDeg?: number;
  readonly seed?: number;
}

const STEPS_A_SECOND = 200;

/** A vessel held over and let go again and again, integrated step by step (Runge and Kutta's fourth order). */
export function releasedRoll(given: ReleasedRoll): { timeS: number[]; heelDeg: number[] } {
  const { lengthS, rateHz = 10, periodS = 5, dampingRatio = 0.04, quadraticPerDeg = 0 } = given;
  const { drivenDeg = 0, noiseDeg = 0, offsetDeg = 0.3, seed = 1 } = given;
  const random = createRandom(seed, 'released-roll');
  const omega = (2 * Math.PI) / periodS;
  const step = 1 / STEPS_A_SECOND;
  // white noise of density 4 z w^3 s^2 drives a stationary standard deviation of s
  const push = drivenDeg * Math.sqrt((4 * dampingRatio * omega ** 3) / step);
  let x = drivenDeg * random.normal();
  let v = drivenDeg * omega * random.normal();
  const timeS: number[] = [];
  const heelDeg: number[] = [];
  for (let k = 0; k < lengthS * STEPS_A_SECOND; k++) {
    for (const release of given.releases) {
      if (Math.round(release.atS * STEPS_A_SECOND) === k) [x, v] = [release.heelDeg, 0];
    }
    if (k % Math.round(STEPS_A_SECOND / rateHz) === 0) {
      timeS.push(k * step);
      heelDeg.push(offsetDeg + x + noiseDeg * random.normal());
    }
    const force = push * random.normal();
    const pull = (a: number, b: number) =>
      force - 2 * dampingRatio * omega * b - quadraticPerDeg * Math.abs(b) * b - omega ** 2 * a;
    const k1 = [v, pull(x, v)] as const;
    const k2 = along(x, v, k1, step / 2, pull);
    const k3 = along(x, v, k2, step / 2, pull);
    const k4 = along(x, v, k3, step, pull);
    x += (step / 6) * (k1[0] + 2 * k2[0] + 2 * k3[0] + k4[0]);
    v += (step / 6) * (k1[1] + 2 * k2[1] + 2 * k3[1] + k4[1]);
  }
  return { timeS, heelDeg };
}

function along(
  x: number,
  v: number,
  [dx, dv]: readonly [number, number],
  step: number,
  pull: (x: number, v: number) => number,
): readonly [number, number] {
  return [v + step * dv, pull(x + step * dx, v + step * dv)];
}
