import type { ScaleFit } from './scale-fit.ts';

/**
 * What a calibration is held to. Ours: no published acceptance figure for an instrument of an
 * inclining test was found. Angles in degrees; of a leg of a water tube the same in mm.
 */
export interface CalibrationLimits {
  readonly largestResidual: number;
  readonly repeatability: number;
  readonly hysteresis: number;
  readonly zeroReturn: number;
  /** Expanded (k = 2), relative. */
  readonly scaleExpandedShare: number;
  /** Between the lowest and the highest setting: less shows little of a scale. */
  readonly leastRange: number;
}

export const INCLINOMETER_LIMITS: CalibrationLimits = {
  largestResidual: 0.01,
  repeatability: 0.005,
  hysteresis: 0.005,
  zeroReturn: 0.01,
  scaleExpandedShare: 0.005,
  leastRange: 6,
};

/** On a tube of 3 m a hundredth of a degree is half a millimetre. */
export const WATER_TUBE_LIMITS: CalibrationLimits = {
  largestResidual: 0.5,
  repeatability: 0.25,
  hysteresis: 0.25,
  zeroReturn: 0.5,
  scaleExpandedShare: 0.005,
  leastRange: 300,
};

export interface LimitHeld {
  readonly figure: keyof CalibrationLimits;
  /** Null: the calibration did not show it (one way only, nothing repeated). */
  readonly value: number | null;
  readonly limit: number;
  readonly verdict: 'within' | 'beyond' | 'not-shown';
}

/**
 * Each figure of a calibration against its limit. `unitsOfFit` turns one unit of the fit into the
 * unit of the limits (degrees in one of sine near zero; 1 for mm), `range` is that of the settings
 * in the unit of the limits. A figure that was not shown is not within.
 */
export function limitsHeld(
  fit: ScaleFit,
  range: number,
  limits: CalibrationLimits,
  unitsOfFit: number,
): LimitHeld[] {
  const scaled = (value: number | null) => (value === null ? null : Math.abs(value) * unitsOfFit);
  const figures: Record<keyof CalibrationLimits, number | null> = {
    largestResidual: scaled(fit.largestResidual),
    repeatability: scaled(fit.repeatability),
    hysteresis: scaled(fit.hysteresis),
    zeroReturn: scaled(fit.zeroReturn),
    scaleExpandedShare: 2 * fit.scaleUncertainty.together,
    leastRange: range,
  };
  return (Object.keys(figures) as (keyof CalibrationLimits)[]).map((figure) => {
    const value = figures[figure];
    const limit = limits[figure];
    const within = value !== null && (figure === 'leastRange' ? value >= limit : value <= limit);
    return {
      figure,
      value,
      limit,
      verdict: value === null ? 'not-shown' : within ? 'within' : 'beyond',
    };
  });
}
