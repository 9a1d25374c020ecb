import { degreesFromRadians } from '../quantity/angle.ts';
import {
  type Candidate,
  candidateOf,
  columnCandidates,
  type LookedFor,
  largest,
  type PlottedTest,
  sideOf,
} from './shape.ts';
import { testStateColumns } from './state-test.ts';

/** One state off the line through all others: its residual, studentised without itself. */
export function oneStateOff(plotted: PlottedTest): LookedFor {
  const { moments } = plotted.readings;
  const columns = moments.map((_, k) => moments.map((_moment, i) => (i === k ? 1 : 0)));
  return largest(
    'one state off',
    columnCandidates(plotted, columns),
    ({ place, t }) =>
      `state ${plotted.stateNames[place]} lies ${sideOf(t)} of the line through the others; read it again`,
    ({ place }) => ({ states: [place] }),
  );
}

/** Everything after some reading lies beside what came before it; at least two states on each side. */
export function step(plotted: PlottedTest): LookedFor {
  const { moments } = plotted.readings;
  const after = moments.slice(2, -1).map((_, k) => k + 2);
  const columns = after.map((k) => moments.map((_moment, i) => (i < k ? 0 : 1)));
  const tests = columns.map((column) => testStateColumns(plotted.readings, plotted.fit, [column]));
  return largest(
    'a step',
    tests.flatMap((tested, place) => candidateOf(tested, place)),
    ({ place, t }) => {
      const last = plotted.stateNames[after[place]! - 1];
      const jumpDeg = degreesFromRadians(Math.atan(Math.abs(tests[place]!.coefficients[0]!)));
      return `from after state ${last} on everything lies ${jumpDeg.toFixed(4)} deg more ${sideOf(t)}; repeat the zero and the states after it`;
    },
    ({ place }) => ({ states: moments.map((_, i) => i).slice(after[place]!) }),
  );
}

/** Another slope to one side than to the other. */
export function oneSideShort(plotted: PlottedTest): LookedFor {
  const { moments } = plotted.readings;
  const bothSides = moments.some((moment) => moment > 0) && moments.some((moment) => moment < 0);
  const scale = Math.max(...moments.map(Math.abs));
  const column = moments.map((moment) => Math.abs(moment) / scale);
  return largest(
    'one side short',
    bothSides ? columnCandidates(plotted, [column]) : [],
    ({ t }) =>
      `she heels less for the same moment ${t > 0 ? 'to port' : 'to starboard'} than to the other side; repeat that side`,
    ({ t }) => ({
      states: moments.flatMap((moment, i) => (moment * t < 0 ? [i] : [])),
    }),
  );
}

/** An odd curve: a term in the third power of the moment. */
export function curve(plotted: PlottedTest): LookedFor {
  const { moments } = plotted.readings;
  const scale = Math.max(...moments.map(Math.abs));
  return largest(
    'a curve',
    columnCandidates(plotted, [moments.map((moment) => (moment / scale) ** 3)]),
    ({ t }) =>
      `the points bend: the heel ${t > 0 ? 'grows faster' : 'lags'} towards the ends on both sides`,
    () => ({ states: [] }),
  );
}

/**
 * All states in which one weight was away from its place read as if its moment were other than
 * stated. Weights that together make the whole moment cannot be told apart: all such are named.
 */
export function oneWeight(plotted: PlottedTest): LookedFor {
  const columns = plotted.weights.map(({ moments }) => {
    const scale = Math.max(1e-300, ...moments.map(Math.abs));
    return moments.map((moment) => moment / scale);
  });
  const candidates = columnCandidates(plotted, columns);
  const named = (found: Candidate) =>
    candidates
      .filter((one) => Math.abs(one.t) >= (1 - 1e-6) * Math.abs(found.t))
      .map(({ place, t }) => `${plotted.weights[place]!.weight} ${t > 0 ? 'larger' : 'smaller'}`);
  return largest(
    'moment of one weight',
    candidates,
    (found) =>
      `states read as if a weight's moment were other than stated: ${named(found).join(', or ')}; check its mass and distances`,
    (found) => (named(found).length === 1 ? { weight: found.place } : {}),
  );
}
