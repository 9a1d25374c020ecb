import { radiansFromDegrees } from '../quantity/angle.ts';
import type { Answer } from './budget.ts';
import { causesOf } from './causes.ts';
import type { ReductionOutput } from './reduction-output.ts';
import type { TestInput } from './test-input.ts';
import type { TestProblem } from './test-problem.ts';

/** What may be wrong with a test written by hand: its points alone, for it holds no roll and no traces. */
export function causesOut(
  test: TestInput,
  { stateNames, weightMoments }: TestProblem,
  { solution, readings }: Answer,
  shapes: ReductionOutput['diagnosis']['shapes'],
): ReductionOutput['diagnosis']['causes'] {
  const instrumentNames = test.instruments.map((one) => one.instrument);
  const masses = new Map((test.weights ?? []).map((one) => [one.weight, one.mass]));
  const times = test.states.flatMap(({ time }) => (time === undefined ? [] : [time]));
  const claimedDeg = test.readingTime?.standardErrorDeg ?? null;
  const found = causesOf({
    moments: solution.momentsFitted,
    tangents: readings.tangents,
    tangentPerMoment: solution.fit.slope.value,
    stateNames,
    instrumentNames,
    weights: weightMoments.map(({ weight, moments }) => {
      const distance = Math.max(...moments.map(Math.abs)) / masses.get(weight)!;
      return { weight, moments, distance };
    }),
    timesS: times.length === test.states.length ? times : null,
    claimedTangent: claimedDeg === null ? null : radiansFromDegrees(claimedDeg),
    shapes,
    periods: [],
    traces: [],
    repeatsProbability: null,
  });
  return found.map(({ states, instrument, weight, evidence, ...one }) => ({
    ...one,
    evidence: [...evidence],
    states: states.map((i) => stateNames[i]!),
    instrument: instrument === null ? null : instrumentNames[instrument]!,
    weight: weight === null ? null : weightMoments[weight]!.weight,
  }));
}
