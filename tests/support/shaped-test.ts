import { leastSquares } from '#core/numerics/least-squares.ts';
import { createRandom, type Random } from '#core/numerics/random.ts';
import { type Diagnosis, diagnosePlot } from '#core/reduction/diagnosis.ts';
import { fitLine } from '#core/reduction/line.ts';
import type { ShapeName } from '#core/reduction/shape.ts';

/** Weights across in each state: each of the four is moved more than once, so that the points tell them apart. */
const ACROSS = ['', 'A', 'AB', 'B', '', 'C', 'CD', 'D', ''];
const WEIGHTS = [
  ['A', 1],
  ['B', 1],
  ['C', -1],
  ['D', -1],
] as const;
const WEIGHT_MOMENTS = WEIGHTS.map(([weight, sign]) => ({
  weight,
  moments: ACROSS.map((across) => (across.includes(weight) ? sign : 0)),
}));
const MOMENTS = ACROSS.map((_, i) => WEIGHT_MOMENTS.reduce((sum, one) => sum + one.moments[i]!, 0));
const STATES = MOMENTS.length;
const INSTRUMENTS = 3;
const TANGENT_PER_UNIT = 0.017;

export const SHAPES: readonly ShapeName[] = [
  'one state off',
  'one reading off',
  'a step',
  'one side short',
  'a curve',
  'scale of one instrument',
  'moment of one weight',
];

/** Size of a shape against its own standard error in such a test. */
export const TIMES_ITS_ERROR = 5;
const OWN_TANGENT = 0.003 * (Math.PI / 180);

/** A test with one shape in it, or none, as the plot shows it. State noise up to .01 degree. */
export function diagnosedShape(shape: ShapeName | null, seed: number): Diagnosis {
  const random = createRandom(seed, `shape ${shape}`);
  const stateTangent = random.between(0.002, 0.01) * (Math.PI / 180);
  const added = shape === null ? () => 0 : shapeAdded(shape, random, stateTangent);
  const tangents = MOMENTS.map((moment, state) => {
    const shared = random.normal(stateTangent);
    return Array.from(
      { length: INSTRUMENTS },
      (_, j) =>
        TANGENT_PER_UNIT * moment +
        0.002 * j +
        shared +
        random.normal(OWN_TANGENT) +
        added(state, j),
    );
  });
  const readings = { moments: MOMENTS, tangents };
  return diagnosePlot({
    readings,
    fit: fitLine(readings),
    stateNames: MOMENTS.map((_, i) => String(i)),
    instrumentNames: Array.from({ length: INSTRUMENTS }, (_, j) => `instrument ${j}`),
    instrumentScaleUncertainties: new Array<number>(INSTRUMENTS).fill(0),
    weights: WEIGHT_MOMENTS,
  });
}

type Added = (state: number, instrument: number) => number;

function shapeAdded(shape: ShapeName, random: Random, stateTangent: number): Added {
  const size = TIMES_ITS_ERROR * (random.uniform() < 0.5 ? -1 : 1);
  const whole = (count: number) => Math.floor(count * random.uniform());
  const ofStates = (column: readonly number[]): Added => {
    const error =
      columnError(column) * Math.hypot(stateTangent, OWN_TANGENT / Math.sqrt(INSTRUMENTS));
    return (state) => size * error * column[state]!;
  };
  switch (shape) {
    case 'one state off': {
      const off = whole(STATES);
      return ofStates(MOMENTS.map((_, i) => (i === off ? 1 : 0)));
    }
    case 'a step': {
      const from = 2 + whole(STATES - 3);
      return ofStates(MOMENTS.map((_, i) => (i >= from ? 1 : 0)));
    }
    case 'one side short':
      return ofStates(MOMENTS.map(Math.abs));
    case 'a curve':
      return ofStates(MOMENTS.map((moment) => moment ** 3));
    case 'moment of one weight':
      return ofStates(WEIGHT_MOMENTS[whole(WEIGHTS.length)]!.moments);
    case 'one reading off': {
      const [at, by] = [whole(STATES), whole(INSTRUMENTS)];
      const left = (1 - 1 / INSTRUMENTS) * (1 - 1 / STATES);
      const off = (size * OWN_TANGENT) / Math.sqrt(left);
      return (state, j) => (state === at && j === by ? off : 0);
    }
    case 'scale of one instrument': {
      const by = whole(INSTRUMENTS);
      const squares = MOMENTS.reduce((sum, one) => sum + one * one, 0) * (1 - 1 / INSTRUMENTS);
      const off = (size * OWN_TANGENT) / Math.sqrt(squares);
      return (state, j) => (j === by ? off * MOMENTS[state]! : 0);
    }
  }
}

/** Standard error of a column's coefficient beside intercept and slope, per unit of a state's scatter. */
function columnError(column: readonly number[]): number {
  const design = MOMENTS.map((moment, i) => [1, moment, column[i]!]);
  const { cofactor } = leastSquares(
    design,
    MOMENTS.map(() => 0),
  );
  return Math.sqrt(cofactor[2]![2]!);
}
