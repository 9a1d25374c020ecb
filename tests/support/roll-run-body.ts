import type { RollRunLine } from '#core/record/roll-line.ts';
import type { KeptRollTest } from '#core/reduction/roll-history.ts';

const value = (of: number, standardUncertainty: number) => ({
  value: of,
  standardUncertainty,
  degreesOfFreedom: 40,
  halfWidth95: 2.02 * standardUncertainty,
});

/** An earlier roll test of a vessel 5 m broad, with a GM of 0.9 m measured beside it. */
export const EARLIER_ROLL: KeptRollTest = {
  date: '2019-05-02',
  condition: 'as inclined',
  beamM: 5,
  displacementT: 60,
  runs: 3,
  periodS: 4.8,
  periodUncertaintyS: 0.01,
  periodDegreesOfFreedom: null,
  dampingRatio: 0.05,
  gmFluidM: 0.9,
  gmUncertaintyM: 0.01,
  ownCoefficient: (4.8 * Math.sqrt(0.9)) / 5,
  ownCoefficientUncertainty: 0.006,
  ownCoefficientDegreesOfFreedom: null,
};

/** The body of a run of free roll, as a receiver writes one. */
export const ROLL_RUN: RollRunLine = {
  by: 'found',
  instrument: 'fore',
  estimator: 'decaying-cosine-1',
  run: {
    fromS: 100,
    toS: 140,
    samples: 400,
    cycles: 8,
    periodS: value(5, 0.002),
    dampingRatio: value(0.05, 0.001),
    linear: { periodS: value(5, 0.002), dampingRatio: value(0.05, 0.001) },
    froude: { a: value(0.157, 0.004), bPerDeg: value(0.001, 0.002), shown: false },
    offsetDeg: value(0.4, 0.001),
    amplitudeFromDeg: 2,
    amplitudeToDeg: 0.2,
    noiseDeg: 0.004,
    drivenDeg: 0.01,
    evidence: {
      lostPerCycle: 0.27,
      lostPerCycleUncertainty: 0.01,
      leftOverShare: 0.02,
      leftOverCorrelation: 0.3,
      otherPeriodS: 7,
      otherShare: 0.01,
      periodChange: 0.001,
      periodChangeUncertainty: 0.002,
    },
    refused: null,
  },
  others: [{ instrument: 'aft', periodS: 5.001, standardUncertaintyS: 0.002 }],
};
