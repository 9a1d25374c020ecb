import { plainDegreesOfFreedom, plainUncertain } from '../numerics/coverage.ts';
import type { StraightLine } from '../numerics/least-squares.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import { type Answer, answerWithBudget } from './budget.ts';
import { cannotShowList } from './cannot-show.ts';
import { compareInstruments } from './instrument-comparison.ts';
import { instrumentWeights } from './own-variances.ts';
import type { Figure, ReductionOutput } from './reduction-output.ts';
import {
  diagnosisOut,
  inDegrees,
  notStated,
  pointsOut,
  shiftsOut,
  statedEvidence,
  type UnitWords,
} from './reduction-parts.ts';
import type { TestInput } from './test-input.ts';
import { problemOfTest } from './test-problem.ts';

/**
 * Every figure of a test written by hand, with uncertainty and diagnosis. Faults: what does not
 * make a line, with its code. The headline is the answer with the metacentre's movement taken
 * out where c2 is given, else the classical one.
 */
export function reduceTest(test: TestInput): ReductionOutput {
  const units = unitWords(test);
  const asked = problemOfTest(test);
  const { problem, causes } = asked;
  const classical = answerWithBudget(problem, causes);
  const c2 = test.metacentreMovement;
  const moved =
    c2 === undefined
      ? null
      : answerWithBudget(
          { ...problem, metacentreMovement: c2.value },
          {
            ...causes,
            metacentreMovementUncertainty: c2.standardUncertainty,
            together: (test.together ?? []).map((one) => ({
              ...one,
              metacentreMovement: one.metacentreMovement ?? 0,
            })),
          },
        );
  const head = moved ?? classical;
  return {
    heelwrightReduction: 1,
    test: test.name,
    source: test.source ?? null,
    units,
    headline: moved === null ? 'classical' : 'metacentre-movement',
    classical: answerOut(test, units, classical),
    metacentreMovement: moved === null ? null : answerOut(test, units, moved),
    line: lineOut(units, classical),
    instruments: instrumentsOut(test, units, classical),
    points: pointsOut(test, asked, head),
    shiftByShift: shiftsOut(asked, units, head),
    diagnosis: diagnosisOut(test, asked, head),
    cannotShow: cannotShowList(statedEvidence(test)),
    notStated: notStated(test),
  };
}

function unitWords(test: TestInput): UnitWords {
  const { mass, length } = test.units ?? { mass: 't', length: 'm' };
  return { mass, length, moment: `${mass}·${length}` };
}

function figure(uncertain: Uncertain, unit: string): Figure {
  return { ...plainUncertain(uncertain), unit };
}

function answerOut(
  test: TestInput,
  units: UnitWords,
  { gm, kg, stiffness, budget, solution }: Answer,
): ReductionOutput['classical'] {
  const known = test.displacement !== undefined;
  return {
    gmFluid: known ? figure(gm, units.length) : null,
    kgFluid: kg === null ? null : figure(kg, units.length),
    stiffness: figure(stiffness, units.moment),
    listDeg: inDegrees(solution.fit.listTangent),
    budget: budget.map((row) => ({
      cause: row.cause,
      gm: row.gm,
      kg: row.kg,
      unit: known ? units.length : units.moment,
      degreesOfFreedom: plainDegreesOfFreedom(row.degreesOfFreedom),
    })),
  };
}

function lineOut(
  units: UnitWords,
  { solution: { fit }, readings }: Answer,
): ReductionOutput['line'] {
  const compared = compareInstruments(readings);
  return {
    slope: figure(fit.slope, `1/(${units.moment})`),
    statesDof: fit.statesDof,
    withinDof: fit.withinDof,
    stateDeviationDeg: fit.stateDeviation === null ? null : inDegrees(fit.stateDeviation),
    readingDeviationDeg: fit.ownDeviation === null ? null : inDegrees(fit.ownDeviation),
    stateEffect: fit.stateEffect,
    intercepts: compared.intercepts,
    slopes: compared.slopes,
  };
}

function instrumentsOut(
  test: TestInput,
  units: UnitWords,
  { solution: { fit }, readings }: Answer,
): ReductionOutput['instruments'] {
  const { alone } = compareInstruments(readings);
  const weights = instrumentWeights(readings);
  return test.instruments.map(({ instrument }, j) => {
    const intercept = fit.intercepts[j]!;
    return {
      instrument,
      readings: readings.tangents.filter((row) => row[j] !== null).length,
      weight: weights[j]!,
      intercept: figure(intercept, 'tangent'),
      interceptDeg: inDegrees(intercept.value),
      alone: aloneOut(alone[j]!, units, test.displacement?.value ?? null),
    };
  });
}

function aloneOut(
  line: StraightLine | null,
  units: UnitWords,
  displacement: number | null,
): ReductionOutput['instruments'][number]['alone'] {
  if (line === null) return null;
  const { slope, slopeUncertainty, intercept, interceptUncertainty, degreesOfFreedom } = line;
  const of = (value: number, standardUncertainty: number, unit: string) =>
    figure({ value, standardUncertainty, degreesOfFreedom }, unit);
  return {
    slope: of(slope, slopeUncertainty, `1/(${units.moment})`),
    intercept: of(intercept, interceptUncertainty, 'tangent'),
    gmFluid:
      displacement === null || !(slope > 0)
        ? null
        : of(
            1 / (displacement * slope),
            slopeUncertainty / (displacement * slope ** 2),
            units.length,
          ),
  };
}
