import { restingWaterline } from '#core/hull/equilibrium.ts';
import type { Hull } from '#core/hull/hull.ts';
import { hydrostaticsAt } from '#core/hull/hydrostatics.ts';
import { knAt } from '#core/hull/righting-lever.ts';
import type { Righting } from './vessel.ts';

/** Heels of the table, radians: 0 to over 40 degrees, and two beyond for the slopes at its end. */
const STEP_RAD = 0.02;
const STEPS = 36;
const MOST_RAD = STEPS * STEP_RAD;

/** How a hull rights and trims at one displacement, node by node from upright. */
export interface Levers {
  readonly displacementT: number;
  readonly kmM: number;
  readonly trimRad: readonly number[];
  /** KN / sin - KM. */
  readonly excessM: readonly number[];
}

export interface AfloatWith {
  readonly massT: number;
  readonly xM: number;
  readonly zM: number;
  readonly densityTM3: number;
}

/** Exact levers of a hull, free to trim, at one displacement. */
export function leversOf(hull: Hull, { massT, xM, zM, densityTM3 }: AfloatWith): Levers {
  const resting = restingWaterline(hull, { massT, centre: { xM, yM: 0, zM } }, densityTM3);
  const { kmTransverseM: kmM, volumeM3 } = hydrostaticsAt(hull, resting, densityTM3);
  const trimRad = [resting.trimRad];
  const excessM = [0];
  let near = resting;
  for (let k = 1; k <= STEPS + 2; k++) {
    const heelRad = k * STEP_RAD;
    const point = knAt(hull, volumeM3, heelRad, { freeAbout: { xM, zM } }, near);
    near = point.waterline;
    trimRad.push(point.waterline.trimRad);
    excessM.push(point.knM / Math.sin(heelRad) - kmM);
  }
  return { displacementT: massT, kmM, trimRad, excessM };
}

/**
 * The righting of a hull from exact levers at three displacements, a parabola between them, cubic
 * between heels (Hermite, slopes by five points); her two sides are alike. Held to the exact levers
 * by its test.
 */
export class TabulatedRighting implements Righting {
  readonly kmM: number;
  readonly metacentreMovementM: number;
  readonly #excessM: readonly number[];
  readonly #trimRad: readonly number[];

  /** Levers at three displacements, the stated one and as far to both sides of it. */
  constructor([light, stated, heavy]: readonly [Levers, Levers, Levers], displacementT: number) {
    const s = (displacementT - stated.displacementT) / (heavy.displacementT - stated.displacementT);
    const mix = (a: number, b: number, c: number) =>
      b + (s * (c - a)) / 2 + (s * s * (a + c - 2 * b)) / 2;
    this.kmM = mix(light.kmM, stated.kmM, heavy.kmM);
    this.#excessM = stated.excessM.map((one, k) => mix(light.excessM[k]!, one, heavy.excessM[k]!));
    this.#trimRad = stated.trimRad.map((one, k) => mix(light.trimRad[k]!, one, heavy.trimRad[k]!));
    // The series of an even function from two of its values (Richardson).
    const movement = (k: number) => this.#excessM[k]! / Math.tan(k * STEP_RAD) ** 2;
    this.metacentreMovementM = (4 * movement(2) - movement(4)) / 3;
  }

  excessM(heelRad: number): number {
    return evenCubic(this.#excessM, heelRad);
  }

  trimRad(heelRad: number): number {
    return evenCubic(this.#trimRad, heelRad);
  }
}

function evenCubic(values: readonly number[], heelRad: number): number {
  const along = Math.abs(heelRad) / STEP_RAD;
  const k = Math.floor(along);
  if (!(k < STEPS)) throw new RangeError(`heel ${heelRad} rad is beyond ${MOST_RAD}`);
  const at = (i: number) => values[Math.abs(i)]!;
  const slope = (i: number) => (at(i - 2) - at(i + 2) + 8 * (at(i + 1) - at(i - 1))) / 12;
  const t = along - k;
  const s = 1 - t;
  return (
    (1 + 2 * t) * s * s * at(k) +
    t * s * s * slope(k) +
    t * t * (3 - 2 * t) * at(k + 1) -
    t * t * s * slope(k + 1)
  );
}
