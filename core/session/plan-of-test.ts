import type { TestOpened } from '../record/line.ts';
import type { PlanInput } from '../reduction/plan-input.ts';

/** Heel each state is expected to be read to where a test opened for the day does not say. Our setting. */
const USUAL_STATE_DEG = 0.006;

/** The plan within a test as it was opened, as a forecast takes it; no instrument is named in it. */
export function planOfTest(test: TestOpened): PlanInput {
  const { particulars, weights, distanceUncertaintyM, plan } = test;
  const { kmM, kmUncertaintyM } = particulars;
  return {
    heelwrightPlan: 1,
    name: test.test,
    displacementT: {
      value: particulars.displacementT,
      standardUncertainty: particulars.displacementUncertaintyT,
    },
    ...(kmM === null || kmUncertaintyM === null
      ? {}
      : { kmM: { value: kmM, standardUncertainty: kmUncertaintyM } }),
    gmGuessM: {
      value: particulars.gmGuessM,
      standardUncertainty: particulars.gmGuessUncertaintyM,
    },
    weights: weights.map(({ weight, massT, massUncertaintyT, at }) => ({
      weight,
      massT,
      standardUncertaintyT: massUncertaintyT,
      at,
    })),
    distanceUncertaintyM,
    shifts: plan,
    instruments: [],
    stateUncertaintyDeg: USUAL_STATE_DEG,
  };
}
