import { RADIANS_PER_DEGREE, radiansFromDegrees } from '../quantity/angle.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import type { Certificate } from '../sample/certificate.ts';
import { type Alignment, alignmentFromDistances } from './alignment.ts';
import type { CalibrationInput } from './calibration-input.ts';
import { INCLINOMETER_LIMITS, type LimitHeld, limitsHeld, WATER_TUBE_LIMITS } from './limits.ts';
import { type ReversalResult, zeroByReversal } from './reversal.ts';
import {
  fitScale,
  type ReferenceUncertainty,
  type ScaleFit,
  type ScalePoint,
} from './scale-fit.ts';
import { sineBarAngle } from './sine-bar.ts';
import { type AxisResult, sixPositions } from './six-positions.ts';
import { fitTemperatureRun, type TemperatureRun } from './temperature-run.ts';
import { fitTimeConstant, type TimeConstant } from './time-constant.ts';

export interface Calibration {
  readonly certificate: Certificate;
  readonly fit: ScaleFit;
  /** Each figure in the unit of its limit: degrees for an inclinometer, mm for a water tube. */
  readonly limits: readonly LimitHeld[];
  readonly reversal: ReversalResult | null;
  readonly temperature: TemperatureRun | null;
  readonly timeConstant: TimeConstant | null;
  readonly alignment: Alignment | null;
  readonly axes: readonly AxisResult[];
}

/**
 * A written calibration to its certificate. Inclinometers are fitted in sine space, water tubes in
 * mm of level difference. The standard's own error is common to all it calibrated and goes into
 * the certificate by the standard's number. Throws what `fitScale` and the other fits throw.
 */
export function calibrationOf(input: CalibrationInput): Calibration {
  const { points, standard } = pointsInUnitOfFit(input);
  const fit = fitScale(points, standard);
  const inclinometer = input.kind === 'inclinometer';
  const unit = inclinometer ? 1 / RADIANS_PER_DEGREE : 1;
  const references = points.map(({ reference }) => reference);
  const range = unit * (Math.max(...references) - Math.min(...references));
  const temperature = input.temperatureRun?.length
    ? fitTemperatureRun(
        input.temperatureRun.map((one) => one.temperatureC),
        input.temperatureRun.map((one) => one.indicated),
      )
    : null;
  const reversal =
    input.kind === 'inclinometer' && input.reversal?.length ? zeroByReversal(input.reversal) : null;
  const timeConstant =
    input.kind === 'water-tube' && input.step?.length
      ? fitTimeConstant(
          input.step.map((one) => one.timeS),
          input.step.map((one) => one.indicatedMm),
        )
      : null;
  return {
    certificate: certificateOf(input, fit, points, { temperature, timeConstant, reversal }),
    fit,
    limits: limitsHeld(fit, range, inclinometer ? INCLINOMETER_LIMITS : WATER_TUBE_LIMITS, unit),
    reversal,
    temperature,
    timeConstant,
    alignment: alignmentOf(input),
    axes: input.kind === 'inclinometer' ? sixPositions(input.sixPositions ?? []) : [],
  };
}

function alignmentOf(input: CalibrationInput): Alignment | null {
  if (input.kind !== 'inclinometer' || input.alignment === undefined) return null;
  const { portMm, starboardMm, apartMm, uncertaintyMm } = input.alignment;
  return alignmentFromDistances(portMm, starboardMm, apartMm, uncertaintyMm);
}

function pointsInUnitOfFit(input: CalibrationInput): {
  points: ScalePoint[];
  standard: ReferenceUncertainty;
} {
  if (input.kind === 'water-tube') {
    const { settingUncertaintyMm, commonUncertaintyShare } = input.standard;
    return {
      points: input.points.map(({ differenceMm, indicatedMm, way, run }) => ({
        indicated: indicatedMm,
        reference: differenceMm,
        way,
        run,
      })),
      standard: { setting: settingUncertaintyMm, commonShare: commonUncertaintyShare },
    };
  }
  const { standard } = input;
  return {
    points: input.points.map(({ heightMm, indicatedDeg, way, run }) => ({
      indicated: Math.sin(radiansFromDegrees(indicatedDeg)),
      reference: sineBarAngle(standard, heightMm).sine,
      way,
      run,
    })),
    standard: {
      setting: standard.heightUncertaintyMm / standard.lengthMm,
      commonShare: standard.lengthUncertaintyMm / standard.lengthMm,
    },
  };
}

interface Beside {
  readonly temperature: TemperatureRun | null;
  readonly timeConstant: TimeConstant | null;
  readonly reversal: ReversalResult | null;
}

function certificateOf(
  input: CalibrationInput,
  fit: ScaleFit,
  points: readonly ScalePoint[],
  beside: Beside,
): Certificate {
  const { temperature, timeConstant, reversal } = beside;
  const noise = input.kind === 'inclinometer' ? input.noiseDeg : input.noiseMm;
  return {
    number: input.number,
    instrument: input.item.instrument,
    method:
      input.method ??
      (input.kind === 'inclinometer'
        ? `sine bar ${input.standard.number}, fitted in sine space`
        : `legs on gauge blocks ${input.standard.number}, fitted in level difference`),
    madeBy: input.madeBy,
    date: input.date,
    zero: fit.zero.value,
    scale: fit.scale.value,
    scaleUncertainty: fit.scaleUncertainty.together,
    leftOver: fit.leftOver,
    temperatureC: input.temperatureC,
    points: points.map(({ indicated, reference }) => [indicated, reference]),
    item: input.item,
    place: input.place,
    standard: { number: input.standard.number, commonShare: fit.scaleUncertainty.common },
    proven: {
      zeroUncertainty: fit.zero.standardUncertainty,
      largestResidual: fit.largestResidual,
      hysteresis: fit.hysteresis,
      repeatability: fit.repeatability,
      zeroReturn: fit.zeroReturn,
    },
    ...(input.asFound && { asFound: input.asFound }),
    ...(input.gravityMS2 !== undefined && { gravityMS2: input.gravityMS2 }),
    ...(noise !== undefined && { noise }),
    ...(reversal && { reversal: stated(reversal.zeroDeg) }),
    ...(timeConstant && { timeConstantS: stated(timeConstant.timeConstantS) }),
    ...(temperature && {
      temperature: {
        aboutC: temperature.aboutC,
        fromC: temperature.fromC,
        toC: temperature.toC,
        perK: temperature.perK,
        perKUncertainty: temperature.perKUncertainty,
        perK2: temperature.perK2,
      },
    }),
  };
}

function stated({ value, standardUncertainty }: Uncertain) {
  return { value, standardUncertainty };
}
