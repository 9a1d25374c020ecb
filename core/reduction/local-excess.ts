import { Fault } from '../fault/fault.ts';
import { type GmProblem, solveGm, trueTangents } from './gm.ts';

type Excess = (tangent: number, state: number) => number;

const STEP = 2e-3;
const MOST_ROUNDS = 12;
/** Within this of where it was opened the cube of the distance is rounding. */
const NEAR = 1e-6;

/**
 * The same problem with its excess opened to the second order about each state's own heel, found
 * by repetition: a hull is cut some fifty times instead of thousands, and what follows (budget,
 * states left out) moves heels by so little that the third order is rounding.
 */
export function withLocalExcess(problem: GmProblem, excess: Excess): GmProblem {
  const { excess: _, ...plain } = problem;
  let tangents = trueTangents(plain, solveGm(plain).fit);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const local = { ...plain, excess: opened(excess, tangents) };
    const next = trueTangents(local, solveGm(local).fit);
    const moved = Math.max(...next.map((tangent, i) => Math.abs(tangent - tangents[i]!)));
    if (moved <= NEAR) return local;
    tangents = next;
  }
  throw new Fault('no-convergence', 'exact equation', `after ${MOST_ROUNDS} rounds`);
}

function opened(excess: Excess, tangents: readonly number[]): Excess {
  const parts = tangents.map((at, state) => {
    const [before, here, after] = [-STEP, 0, STEP].map((by) => excess(at + by, state)) as [
      number,
      number,
      number,
    ];
    return {
      at,
      here,
      slope: (after - before) / (2 * STEP),
      bend: (after - 2 * here + before) / STEP ** 2 / 2,
    };
  });
  return (tangent, state) => {
    const { at, here, slope, bend } = parts[state]!;
    const by = tangent - at;
    return here + by * (slope + by * bend);
  };
}
