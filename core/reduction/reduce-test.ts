import { Fault } from '../fault/fault.ts';
import type { HullAfloat } from '../flotation/hull-afloat.ts';
import type { StraightLine } from '../numerics/least-squares.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import { gmOverKgAdvice } from '../survey/survey-advice.ts';
import { type Answer, answerWithBudget, type Causes } from './budget.ts';
import { cannotShowList } from './cannot-show.ts';
import { exactAnswer } from './exact.ts';
import type { GmProblem } from './gm.ts';
import { compareInstruments } from './instrument-comparison.ts';
import { instrumentWeights } from './own-variances.ts';
import { adviceOut, exactOut, floatEvidence, floatOut, headlineOf } from './reduction-of-float.ts';
import { lightshipOf } from './reduction-of-lightship.ts';
import type { ReductionOutput } from './reduction-output.ts';
import {
  budgetOut,
  diagnosisOut,
  figure,
  inDegrees,
  leaveOneOutOut,
  liquidEvidence,
  mayOmitOut,
  movesOut,
  notStated,
  pointsOut,
  shiftsOut,
  sidesOut,
  statedEvidence,
  type UnitWords,
} from './reduction-parts.ts';
import { lackOfFit } from './repeats.ts';
import { exactHullOf, floatOfTest, type TestFloat } from './test-float.ts';
import type { TestInput } from './test-input.ts';
import { problemOfTest, type TestProblem } from './test-problem.ts';
import { worthOfMore } from './worth.ts';

/**
 * Every figure of a test written by hand, with uncertainty and diagnosis. Faults: what does not
 * make a line, with its code. `hull` where the test names one, read beforehand: displacement and KM
 * then come from its waterline and water. The headline is the most exact answer there is (the exact
 * equation, the line with the metacentre's movement taken out, the line) unless another is official.
 */
export function reduceTest(written: TestInput, hull: HullAfloat | null = null): ReductionOutput {
  checkHull(written, hull);
  const float = floatOfTest(written, hull);
  const test = float?.test ?? written;
  const units = unitWords(test);
  const asked = problemOfTest(test);
  const { problem, causes } = withList(asked, written, float);
  const classical = answerWithBudget(problem, causes);
  const moved = movedAnswer(test, problem, causes);
  const exactHull = exactHullOf(written, hull, float, asked.trimMoments);
  const exact =
    exactHull === null ? null : exactAnswer(problem, withMovement(test, causes), exactHull.hull);
  const head = headlineOf(written.official, { classical, moved, exact });
  const lightship = lightshipOf(written, float, head.answer, exact);
  const diagnosis = diagnosisOut(test, asked, head.answer);
  const share = written.liquids?.freeSurfaceUncertaintyShare ?? 0;
  return {
    heelwrightReduction: 1,
    test: test.name,
    source: test.source ?? null,
    units,
    headline: head.name,
    classical: answerOut(test, units, classical),
    metacentreMovement: moved === null ? null : answerOut(test, units, moved),
    exact: exactOut(units, exact, share),
    float: floatOut(float),
    lightship: lightship.out,
    advice: adviceOut([
      ...(float?.advice ?? []),
      ...(exactHull?.advice ?? []),
      ...lightship.advice,
      ...(head.answer.kg === null
        ? []
        : gmOverKgAdvice(head.answer.gm.value, head.answer.kg.value)),
    ]),
    line: lineOut(units, classical),
    instruments: instrumentsOut(test, units, classical),
    points: pointsOut(test, asked, head.answer),
    shiftByShift: shiftsOut(asked, units, head.answer),
    leaveOneOut: leaveOneOutOut(test, asked, head.answer.problem),
    moves: movesOut(test, asked, head.answer),
    lackOfFit: lackOfFit(head.answer.solution.momentsFitted, head.answer.solution.fit),
    worth: worthOut(written, float, head.answer),
    sides: sidesOut(units, head.answer),
    drift: driftOut(classical),
    diagnosis,
    mayOmit: mayOmitOut(test, asked, !diagnosis.troubleSeen),
    cannotShow: cannotShowList({
      ...statedEvidence(test),
      ...floatEvidence(float),
      ...test.evidence,
      ...liquidEvidence(test),
    }),
    notStated: notStated(written),
  };
}

function checkHull(test: TestInput, hull: HullAfloat | null): void {
  if (test.hull !== undefined && hull === null) {
    throw new Fault(
      'input-contradiction',
      'hull',
      `${test.hull.file ?? test.hull.tables?.file} was not read`,
    );
  }
  if (test.official === 'exact' && hull?.knOf == null) {
    throw new Fault('input-contradiction', 'official', 'the exact equation needs a hull with KN');
  }
}

/** The line with c2 taken out; null where c2 is not known. */
function movedAnswer(test: TestInput, problem: GmProblem, causes: Causes): Answer | null {
  const c2 = test.metacentreMovement;
  if (c2 === undefined) return null;
  return answerWithBudget(
    { ...problem, metacentreMovement: c2.value },
    { ...withMovement(test, causes), metacentreMovementUncertainty: c2.standardUncertainty },
  );
}

/** The causes with what each does to c2. */
function withMovement(test: TestInput, causes: Causes): Causes {
  return {
    ...causes,
    together: (test.together ?? []).map((one) => ({
      ...one,
      metacentreMovement: one.metacentreMovement ?? 0,
    })),
  };
}

function withList(
  { problem, causes }: TestProblem,
  test: TestInput,
  float: TestFloat | null,
): { problem: GmProblem; causes: Causes } {
  if (test.listFromWaterline !== true || float === null) return { problem, causes };
  const heel = float.fit.covariance[2]![2]!;
  return {
    problem: { ...problem, firstTangent: float.fit.surface.heelSlope },
    causes: { ...causes, firstTangentUncertainty: Math.sqrt(heel) },
  };
}

function worthOut(
  test: TestInput,
  float: TestFloat | null,
  head: Answer,
): ReductionOutput['worth'] {
  const { readingTime } = test;
  const time =
    readingTime === undefined
      ? null
      : {
          countedS: readingTime.countedS,
          readingTangent: radiansFromDegrees(readingTime.standardErrorDeg),
        };
  const { more, ...rest } = worthOfMore(head, float?.fit.levels.length ?? 0, time);
  return { ...rest, more: [...more] };
}

function driftOut({ solution: { fit } }: Answer): ReductionOutput['drift'] {
  return fit.drift === null ? null : figure(fit.drift, 'tangent');
}

function unitWords(test: TestInput): UnitWords {
  const { mass, length } = test.units ?? { mass: 't', length: 'm' };
  return { mass, length, moment: `${mass}·${length}` };
}

function answerOut(
  test: TestInput,
  units: UnitWords,
  answer: Answer,
): ReductionOutput['classical'] {
  const { gm, kg, stiffness, solution } = answer;
  const known = test.displacement !== undefined;
  return {
    gmFluid: known ? figure(gm, units.length) : null,
    kgFluid: kg === null ? null : figure(kg, units.length),
    stiffness: figure(stiffness, units.moment),
    listDeg: inDegrees(solution.fit.listTangent),
    budget: budgetOut(answer, known ? units.length : units.moment),
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
