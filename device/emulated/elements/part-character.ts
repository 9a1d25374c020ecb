import * as adxl355 from '#core/part/adxl355.ts';
import * as iis2iclx from '#core/part/iis2iclx.ts';
import * as lsm6dso from '#core/part/lsm6dso.ts';

/** How one kind of accelerometer differs from a perfect one. */
export interface PartCharacter {
  readonly axisCount: 2 | 3;
  readonly leastCounts: number;
  readonly mostCounts: number;
  gPerCount(rangeG: number): number;
  countsFromTemperatureC(temperatureC: number): number;
  /** Limits of one part, relative and g: drawn evenly between them. */
  readonly sensitivityTolerance: number;
  readonly zeroToleranceG: number;
  /** Standard deviations over parts. */
  readonly zeroPerKG: number;
  readonly sensitivityPerK: number;
  readonly temperatureOffsetK: number;
  readonly noiseGRtHz: number;
}

/** Limits and typical values of ST data sheet DS13005 Rev 7, Table 2, mechanical characteristics. */
export const IIS2ICLX: PartCharacter = {
  axisCount: 2,
  leastCounts: iis2iclx.LEAST_COUNTS,
  mostCounts: iis2iclx.MOST_COUNTS,
  gPerCount: iis2iclx.gPerCount,
  countsFromTemperatureC: iis2iclx.countsFromTemperatureC,
  sensitivityTolerance: 0.02,
  zeroToleranceG: 0.008,
  zeroPerKG: 0.02e-3,
  sensitivityPerK: 0.00004,
  // The sheet gives the temperature sensor an offset of up to 15 K.
  temperatureOffsetK: 3,
  noiseGRtHz: 15e-6,
};

/** Data sheet ADXL354/ADXL355 Rev. 0, Table 2; its temperature sensor's offset is our assumption. */
export const ADXL355: PartCharacter = {
  axisCount: 3,
  leastCounts: adxl355.LEAST_COUNTS,
  mostCounts: adxl355.MOST_COUNTS,
  gPerCount: adxl355.gPerCount,
  countsFromTemperatureC: adxl355.countsFromTemperatureC,
  sensitivityTolerance: 0.08,
  zeroToleranceG: 0.025,
  zeroPerKG: 0.02e-3,
  sensitivityPerK: 0.0001,
  temperatureOffsetK: 3,
  noiseGRtHz: 25e-6,
};

/** Second-hand notes of the sheet and memory: zero 20 mg, 0.1 mg/K, noise 70 ug/rtHz, scale 1 %. */
export const LSM6DSO: PartCharacter = {
  axisCount: 3,
  leastCounts: lsm6dso.LEAST_COUNTS,
  mostCounts: lsm6dso.MOST_COUNTS,
  gPerCount: lsm6dso.gPerCount,
  countsFromTemperatureC: lsm6dso.countsFromTemperatureC,
  sensitivityTolerance: 0.01,
  zeroToleranceG: 0.02,
  zeroPerKG: lsm6dso.ZERO_PER_K_G,
  sensitivityPerK: 0.0001,
  temperatureOffsetK: 3,
  noiseGRtHz: 70e-6,
};
