import { Fault } from '../fault/fault.ts';
import { fBeyond } from '../numerics/f-distribution.ts';
import { leastSquares } from '../numerics/least-squares.ts';
import { checkAllFinite } from '../quantity/check.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';

/**
 * One point of a calibration: what the instrument indicated and what was set, both in the unit of
 * the fit (the sine of the angle for an inclinometer, mm of level for a leg of a water tube), in
 * the order they were taken.
 */
export interface ScalePoint {
  readonly indicated: number;
  readonly reference: number;
  readonly way: 'up' | 'down';
  /** Which of the repeated runs, from 1. */
  readonly run: number;
}

/** Standard uncertainties of what was set. */
export interface ReferenceUncertainty {
  /** One setting for another, in the unit of the fit. */
  readonly setting: number;
  /** Shared by all settings: a relative scale. All instruments of the same standard share it. */
  readonly commonShare: number;
}

export interface ScaleFit {
  /** reference = zero + scale * indicated. */
  readonly zero: Uncertain;
  readonly scale: Uncertain;
  /** Standard uncertainty of the scale relative to it: of the fit, of the standard, together. */
  readonly scaleUncertainty: {
    readonly ofFit: number;
    readonly common: number;
    readonly together: number;
  };
  /** Standard deviation left over by the fit. */
  readonly leftOver: number;
  readonly degreesOfFreedom: number;
  readonly residuals: readonly number[];
  readonly largestResidual: number;
  /** Most that the mean going up differs from the mean going down at one reference; null: one way only. */
  readonly hysteresis: number | null;
  /** Standard deviation of repeats at one reference the same way, pooled; null: nothing repeated. */
  readonly repeatability: number | null;
  /** Indicated at the end less at the beginning where the same reference was set; null: not set again. */
  readonly zeroReturn: number | null;
  /** Would a bend (a square term) be more than chance? `probability` of so much by chance. */
  readonly bend: { readonly coefficient: number; readonly probability: number };
}

const LEAST_POINTS = 6;
/** References closer than this share of their range are the same setting. */
const SAME_SETTING = 1e-6;

/**
 * A straight line of what was set on what was indicated, by least squares in the unit of the fit,
 * with what a certificate states of it. The fit's own uncertainty is not less than the setting
 * uncertainty of the standard allows. JCGM 100:2008, H.3 is the worked example of a line fitted
 * to a calibration. Faults: `input-too-few` under six points or three different settings,
 * `line-not-determined` where nothing was indicated but one value, `input-not-finite`.
 */
export function fitScale(points: readonly ScalePoint[], standard: ReferenceUncertainty): ScaleFit {
  const x = points.map(({ indicated }) => indicated);
  const y = points.map(({ reference }) => reference);
  checkAllFinite(x, 'indicated');
  checkAllFinite(y, 'reference');
  checkAllFinite([standard.setting, standard.commonShare], 'standard');
  const settings = settingsOf(points);
  if (points.length < LEAST_POINTS || settings.length < 3) {
    throw new Fault(
      'input-too-few',
      'calibration',
      `${points.length} points at ${settings.length} settings`,
    );
  }
  const { coefficients, residuals, rest, cofactor } = leastSquares(
    x.map((value) => [1, value]),
    y,
  );
  const [zero, scale] = [coefficients[0]!, coefficients[1]!];
  const degreesOfFreedom = points.length - 2;
  const leftOver = Math.sqrt(rest / degreesOfFreedom);
  const deviation = Math.max(leftOver, standard.setting);
  const ofFit = (deviation * Math.sqrt(cofactor[1]![1]!)) / Math.abs(scale);
  const together = Math.hypot(ofFit, standard.commonShare);
  const freedom = leftOver >= standard.setting ? degreesOfFreedom : Number.POSITIVE_INFINITY;
  return {
    zero: {
      value: zero,
      standardUncertainty: deviation * Math.sqrt(cofactor[0]![0]!),
      degreesOfFreedom: freedom,
    },
    scale: {
      value: scale,
      standardUncertainty: together * Math.abs(scale),
      // Welch and Satterthwaite (JCGM 100:2008, G.4.1): the standard's own part is not counted.
      degreesOfFreedom: ofFit === 0 ? Number.POSITIVE_INFINITY : freedom * (together / ofFit) ** 4,
    },
    scaleUncertainty: { ofFit, common: standard.commonShare, together },
    leftOver,
    degreesOfFreedom,
    residuals,
    largestResidual: Math.max(...residuals.map(Math.abs)),
    hysteresis: hysteresisOf(settings, scale),
    repeatability: repeatabilityOf(settings, scale),
    zeroReturn: zeroReturnOf(points, scale),
    bend: bendOf(x, y, rest),
  };
}

function settingsOf(points: readonly ScalePoint[]): ScalePoint[][] {
  const sorted = [...points].sort((a, b) => a.reference - b.reference);
  const range = sorted.at(-1)!.reference - sorted[0]!.reference;
  const settings: ScalePoint[][] = [];
  for (const point of sorted) {
    const last = settings.at(-1);
    if (last && point.reference - last[0]!.reference <= SAME_SETTING * range) last.push(point);
    else settings.push([point]);
  }
  return settings;
}

function indicatedMean(points: readonly ScalePoint[]): number {
  return points.reduce((sum, { indicated }) => sum + indicated, 0) / points.length;
}

function hysteresisOf(settings: readonly ScalePoint[][], scale: number): number | null {
  const gaps = settings.flatMap((setting) => {
    const up = setting.filter(({ way }) => way === 'up');
    const down = setting.filter(({ way }) => way === 'down');
    if (up.length === 0 || down.length === 0) return [];
    return [Math.abs(scale * (indicatedMean(up) - indicatedMean(down)))];
  });
  return gaps.length === 0 ? null : Math.max(...gaps);
}

function repeatabilityOf(settings: readonly ScalePoint[][], scale: number): number | null {
  let squares = 0;
  let freedom = 0;
  for (const setting of settings) {
    for (const way of ['up', 'down'] as const) {
      const same = setting.filter((point) => point.way === way);
      if (same.length < 2) continue;
      const mean = indicatedMean(same);
      for (const { indicated } of same) squares += (scale * (indicated - mean)) ** 2;
      freedom += same.length - 1;
    }
  }
  return freedom === 0 ? null : Math.sqrt(squares / freedom);
}

/** The last point against the first at the same setting. */
function zeroReturnOf(points: readonly ScalePoint[], scale: number): number | null {
  const last = points.at(-1)!;
  const first = points.find(({ reference }) => reference === last.reference)!;
  return first === last ? null : scale * (last.indicated - first.indicated);
}

function bendOf(x: readonly number[], y: readonly number[], restOfLine: number) {
  const mean = x.reduce((sum, value) => sum + value, 0) / x.length;
  const bent = leastSquares(
    x.map((value) => [1, value, (value - mean) ** 2]),
    y,
  );
  const freedom = x.length - 3;
  const statistic = bent.rest === 0 ? 0 : (restOfLine - bent.rest) / (bent.rest / freedom);
  return {
    coefficient: bent.coefficients[2]!,
    probability: restOfLine === 0 ? 1 : fBeyond(Math.max(0, statistic), 1, freedom),
  };
}
