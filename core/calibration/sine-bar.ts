import { Fault } from '../fault/fault.ts';
import { degreesFromRadians } from '../quantity/angle.ts';
import { checkAllFinite } from '../quantity/check.ts';

/** A beam on two rollers: how long it is between their centres, and how well that is known. */
export interface SineBar {
  /** The bar's own number: instruments calibrated on one bar share its error. */
  readonly number: string;
  readonly lengthMm: number;
  readonly lengthUncertaintyMm: number;
  /** Of one height set under one roller (gauge blocks, height gauge), mm. */
  readonly heightUncertaintyMm: number;
}

export interface SineBarAngle {
  /** Sine of the bar's tilt; positive as the height is. */
  readonly sine: number;
  readonly angleDeg: number;
  /** Standard uncertainty of the setting, one height for another, in sine. */
  readonly settingUncertainty: number;
  /** Standard uncertainty that every setting of this bar shares, relative: a scale. */
  readonly commonUncertaintyShare: number;
  /** Both together, degrees: u(angle)^2 = (u_h / (L cos))^2 + (tan u_L / L)^2. */
  readonly angleUncertaintyDeg: number;
}

/**
 * The tilt of a sine bar whose one roller stands `heightMm` over the other (negative: under):
 * sine = height / length, exactly. Faults: `input-range` for a height beyond the length or a
 * length that is not positive, `input-not-finite`.
 */
export function sineBarAngle(bar: SineBar, heightMm: number): SineBarAngle {
  const { lengthMm, lengthUncertaintyMm, heightUncertaintyMm } = bar;
  checkAllFinite([heightMm, lengthMm, lengthUncertaintyMm, heightUncertaintyMm], 'sine bar');
  if (lengthMm <= 0) throw new Fault('input-range', 'sine bar: length', `${lengthMm} mm`);
  if (Math.abs(heightMm) >= lengthMm) {
    throw new Fault('input-range', 'sine bar: height', `${heightMm} mm on ${lengthMm} mm`);
  }
  const sine = heightMm / lengthMm;
  const angleRad = Math.asin(sine);
  const settingUncertainty = heightUncertaintyMm / lengthMm;
  const commonUncertaintyShare = lengthUncertaintyMm / lengthMm;
  return {
    sine,
    angleDeg: degreesFromRadians(angleRad),
    settingUncertainty,
    commonUncertaintyShare,
    angleUncertaintyDeg: degreesFromRadians(
      Math.hypot(
        settingUncertainty / Math.cos(angleRad),
        Math.tan(angleRad) * commonUncertaintyShare,
      ),
    ),
  };
}
