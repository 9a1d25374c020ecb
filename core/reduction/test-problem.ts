import { Fault } from '../fault/fault.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import { checkRange } from '../quantity/check.ts';
import type { Causes } from './budget.ts';
import type { GmProblem } from './gm.ts';
import type { TestInput, TestInstrument } from './test-input.ts';

/** A test written by hand, brought to what GM and its budget need. */
export interface TestProblem {
  /** Classical; a displacement of 1 stands where none is given, and GM is then the stiffness. */
  readonly problem: GmProblem;
  readonly causes: Causes;
  readonly stateNames: readonly string[];
  /** Moment of everything moved forward since the first state, by state. */
  readonly trimMoments: readonly number[];
  /** Moment each weight has brought, by state; empty where totals are given. */
  readonly weightMoments: readonly {
    readonly weight: string;
    readonly moments: readonly number[];
  }[];
}

/** Heel and readings beyond this are a slip of the pen: a test heels 1 to 4 degrees. */
const MOST_HEEL_DEG = 30;

export function problemOfTest(test: TestInput): TestProblem {
  const states = test.states;
  const ways = waysOfWeights(test);
  const weights = (test.weights ?? []).map((weight, k) => ({
    weight: weight.weight,
    mass: weight.mass,
    massUncertainty: weight.standardUncertainty ?? 0,
    moved: ways.map((way) => way[k]!),
  }));
  const total = (i: number, along: 'x' | 'y' | 'z') =>
    weights.reduce((sum, { mass, moved }) => sum + mass * moved[i]![along], 0);
  const byMoves = states.some((one) => one.moves !== undefined);
  const problem: GmProblem = {
    displacement: test.displacement?.value ?? 1,
    heelingMoments: states.map((one, i) => (byMoves ? total(i, 'y') : one.heelingMoment!)),
    verticalMoments: states.map((one, i) => (byMoves ? total(i, 'z') : (one.verticalMoment ?? 0))),
    tangents: states.map((one, i) =>
      test.instruments.map((instrument) => {
        const reading = one.readings[instrument.instrument] ?? null;
        const where = `states[${i}].readings.${instrument.instrument}`;
        return reading === null ? null : tangentOfReading(instrument, reading, where);
      }),
    ),
    metacentreMovement: 0,
    ...(test.drift === true ? { driftTimes: states.map((one) => one.time!) } : {}),
  };
  return {
    problem,
    causes: causesOfTest(test, byMoves ? weights : []),
    trimMoments: states.map((_, i) => (byMoves ? total(i, 'x') : 0)),
    stateNames: states.map((one, i) => one.state ?? String(i)),
    weightMoments: byMoves
      ? weights.map(({ weight, mass, moved }) => ({
          weight,
          moments: moved.map((way) => mass * way.y),
        }))
      : [],
  };
}

/** How far each weight has come since the first state, by state and weight. */
function waysOfWeights(test: TestInput): { x: number; y: number; z: number }[][] {
  const names = (test.weights ?? []).map((one) => one.weight);
  let way = names.map(() => ({ x: 0, y: 0, z: 0 }));
  return test.states.map((state, i) => {
    if (i === 0 && (state.moves ?? []).length > 0) {
      throw new Fault(
        'input-contradiction',
        'states[0].moves',
        'the first state is before any move',
      );
    }
    way = way.map((one) => ({ ...one }));
    for (const move of state.moves ?? []) {
      const own = way[names.indexOf(move.weight)]!;
      own.y += move.distance;
      own.z += move.rise ?? 0;
      own.x += move.forward ?? 0;
    }
    return way;
  });
}

function tangentOfReading(instrument: TestInstrument, reading: number, where: string): number {
  const most = Math.tan(radiansFromDegrees(MOST_HEEL_DEG));
  switch (instrument.reads) {
    case 'deflection':
    case 'level-difference':
      return checkRange(reading / instrument.length, -most, most, `${where}, tangent`);
    case 'tangent':
      return checkRange(reading, -most, most, where);
    case 'heel-deg':
      return Math.tan(
        radiansFromDegrees(checkRange(reading, -MOST_HEEL_DEG, MOST_HEEL_DEG, where)),
      );
  }
}

function causesOfTest(test: TestInput, weights: Causes['weights']): Causes {
  return {
    displacementUncertainty: test.displacement?.standardUncertainty ?? 0,
    km: test.km ?? null,
    metacentreMovementUncertainty: 0,
    together: (test.together ?? []).map((one) => ({ ...one, metacentreMovement: 0 })),
    weights,
    massScaleUncertainty: test.massScaleUncertainty ?? 0,
    distanceUncertainty: test.distanceUncertainty ?? 0,
    momentScaleUncertainty: test.momentScaleUncertainty ?? 0,
    instruments: test.instruments.map((one) => ({
      instrument: one.instrument,
      scaleUncertainty: one.scaleUncertainty ?? 0,
      standard: one.standard,
      space: one.scaleOf ?? (one.reads === 'heel-deg' ? 'angle' : 'tangent'),
    })),
    angleScaleUncertainty: test.angleScaleUncertainty ?? 0,
  };
}
