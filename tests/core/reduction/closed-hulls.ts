import { bracketedRoot } from '#core/numerics/root.ts';

/**
 * Hulls whose righting levers stand in closed form: KN by heel in radians, m. Worked from the
 * formulas of a section's wedge; box good to the heel at which its bilge comes out.
 */
export interface ClosedHull {
  readonly displacement: number;
  readonly km: number;
  /** c2 = lim (KN / cos - KM t) / t3. */
  readonly c2: number;
  readonly kn: (heelRad: number) => number;
}

/** L 20, B 6, T 1.5 m, water 1.025: KN = BM sin + (KB + BM t2 / 2) sin. */
export const BOX: ClosedHull = {
  displacement: 184.5,
  km: 2.75,
  c2: 1,
  kn: (heelRad) => (2 + 0.75 + Math.tan(heelRad) ** 2) * Math.sin(heelRad),
};

const A = 3;
const C = 1.5;
const D = 2 / 3 / (Math.PI / 2);

/** A half-immersed ellipse, half breadth 3, depth 1.5, L 20 m, water 1.025. */
export const ELLIPSE: ClosedHull = {
  displacement: 144.905961147,
  km: 3.409859317,
  c2: -3.819718634,
  kn: (heelRad) => {
    const sine = Math.sin(heelRad);
    const cosine = Math.cos(heelRad);
    const root = Math.sqrt(C * C * cosine * cosine + A * A * sine * sine);
    return (D * (A * A - C * C) * sine * cosine) / root + C * sine;
  },
};

/** The heel at which a vessel rests: (TCG + my / D) cos + (KG + mz / D) sin = KN - liquids. */
export function restingHeel(
  hull: ClosedHull,
  weight: { kg: number; tcg: number; my: number; mz?: number },
  liquidsM: (heelRad: number) => number = () => 0,
): number {
  const { displacement } = hull;
  const left = (heel: number) =>
    (weight.tcg + weight.my / displacement) * Math.cos(heel) +
    (weight.kg + (weight.mz ?? 0) / displacement) * Math.sin(heel) -
    hull.kn(heel) +
    liquidsM(heel);
  return bracketedRoot(left, -0.4, 0.4);
}
