import { checkFinite } from '../quantity/check.ts';

/**
 * The righting side of the exact equation of a steady heel,
 * (TCG + m_y / D) cos + (KG + m_z / D) sin = KN - liquids, brought to the tangent of heel.
 */
export interface Righting {
  /** Height of the metacentre over the baseline upright, the free surface of the liquids taken off. */
  readonly metacentreM: number;
  /** (KN - liquids) / cos(heel) less metacentre times tangent: what bends the line. */
  readonly excessM: (tangent: number) => number;
}

/** Central differences over this tangent, its half and its quarter cancel the third and fifth power. */
const STEP = 0.01;

/** From KN at constant displacement and what the liquids do, both functions of heel, m. */
export function rightingFrom(
  knM: (heelRad: number) => number,
  liquidsM: (heelRad: number) => number,
): Righting {
  const over = (tangent: number): number => {
    const heelRad = Math.atan(tangent);
    const lever = (knM(heelRad) - liquidsM(heelRad)) / Math.cos(heelRad);
    return checkFinite(lever, `righting lever at tangent ${tangent}`);
  };
  const slope = (step: number) => (over(step) - over(-step)) / (2 * step);
  const [whole, half, quarter] = [slope(STEP), slope(STEP / 2), slope(STEP / 4)];
  const metacentreM = (64 * quarter - 20 * half + whole) / 45;
  return { metacentreM, excessM: (tangent) => over(tangent) - metacentreM * tangent };
}

/** Tangents of some two and four degrees: where a test heels, and where rounding does not show. */
const BEND_AT = 0.07;

/** c2 of the metacentre's movement: the first bend, excess over the cube of the tangent, at none. */
export function metacentreMovementM({ excessM }: Righting): number {
  const bend = (tangent: number) => (excessM(tangent) - excessM(-tangent)) / (2 * tangent ** 3);
  return (4 * bend(BEND_AT / 2) - bend(BEND_AT)) / 3;
}
