import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Uncertain } from '#core/quantity/uncertainty.ts';
import { type GmProblem, solveGm } from '#core/reduction/gm.ts';
import { fitLine } from '#core/reduction/line.ts';

/** Tests of 4 to 10 states, 1 to 4 instruments, with holes, that determine a line. */
const problems: fc.Arbitrary<GmProblem> = fc
  .record({
    states: fc.integer({ min: 4, max: 10 }),
    instruments: fc.integer({ min: 1, max: 4 }),
    noise: fc.array(fc.double({ min: -1e-3, max: 1e-3, noNaN: true }), {
      minLength: 60,
      maxLength: 60,
    }),
    holes: fc.array(fc.boolean(), { minLength: 40, maxLength: 40 }),
    gm: fc.double({ min: 0.3, max: 3, noNaN: true }),
    metacentreMovement: fc.constantFrom(0, 0, 0.8, -1.5),
  })
  .map(({ states, instruments, noise, holes, gm, metacentreMovement }) => {
    const heelingMoments = Array.from({ length: states }, (_, i) => 2 * ((i % 5) - 2));
    const displacement = 100;
    return {
      displacement,
      heelingMoments,
      verticalMoments: heelingMoments.map(() => 0),
      tangents: heelingMoments.map((moment, i) =>
        Array.from({ length: instruments }, (_, j) =>
          // the first instrument is always read, so that the line is determined
          j > 0 && holes[i * 4 + j]!
            ? null
            : moment / (displacement * gm) + noise[50 + (i % 10)]! + 0.3 * noise[i * 4 + j]!,
        ),
      ),
      metacentreMovement,
    };
  })
  .filter(({ tangents }) => tangents[0]!.every((_, j) => tangents.some((row) => row[j] !== null)));

const near = (found: number, wanted: number, within = 1e-9) =>
  expect(Math.abs(found / wanted - 1)).toBeLessThan(within);

/** Uncertainties of the same line; of points exactly on it only rounding is left. */
const alike = (found: Uncertain, wanted: Uncertain) =>
  expect(Math.abs(found.standardUncertainty - wanted.standardUncertainty)).toBeLessThan(
    1e-6 * wanted.standardUncertainty + 1e-10 * Math.abs(wanted.value),
  );

test('law: the mirrored ship has the mirrored list and the same GM', () => {
  fc.assert(
    fc.property(problems, (problem) => {
      const mirrored = solveGm({
        ...problem,
        heelingMoments: problem.heelingMoments.map((moment) => -moment),
        tangents: problem.tangents.map((row) => row.map((tangent) => tangent && -tangent)),
      });
      const solved = solveGm(problem);
      near(mirrored.gm, solved.gm);
      expect(mirrored.fit.listTangent).toBeCloseTo(-solved.fit.listTangent, 12);
    }),
    { numRuns: 80 },
  );
});

test('law: a constant added to one instrument changes no slope and no uncertainty', () => {
  fc.assert(
    fc.property(problems, fc.double({ min: -0.1, max: 0.1, noNaN: true }), (problem, constant) => {
      const { heelingMoments: moments, tangents } = problem;
      const moved = tangents.map((row) =>
        row.map((tangent, j) => (tangent === null || j > 0 ? tangent : tangent + constant)),
      );
      const plain = fitLine({ moments, tangents });
      const offset = fitLine({ moments, tangents: moved });
      near(offset.slope.value, plain.slope.value);
      alike(offset.slope, plain.slope);
    }),
    { numRuns: 80 },
  );
});

test('law: other units of mass and length scale GM and nothing else', () => {
  fc.assert(
    fc.property(problems, fc.double({ min: 0.1, max: 10, noNaN: true }), (problem, feet) => {
      const scaled = solveGm({
        ...problem,
        displacement: 7 * problem.displacement,
        heelingMoments: problem.heelingMoments.map((moment) => 7 * feet * moment),
        metacentreMovement: feet * problem.metacentreMovement,
      });
      near(scaled.gm, feet * solveGm(problem).gm);
    }),
    { numRuns: 80 },
  );
});

test('law: the order of states and of instruments is irrelevant to the line', () => {
  fc.assert(
    fc.property(problems, (problem) => {
      const turned = solveGm({
        ...problem,
        heelingMoments: problem.heelingMoments.toReversed(),
        tangents: problem.tangents.map((row) => row.toReversed()).toReversed(),
      });
      const solved = solveGm(problem);
      near(turned.gm, solved.gm);
      alike(turned.fit.slope, solved.fit.slope);
    }),
    { numRuns: 80 },
  );
});

test('law: the origin of the moments shifts the list and leaves the line', () => {
  fc.assert(
    fc.property(problems, fc.double({ min: -1e4, max: 1e4, noNaN: true }), (problem, origin) => {
      const { heelingMoments, tangents } = problem;
      const plain = fitLine({ moments: heelingMoments, tangents });
      const moved = fitLine({ moments: heelingMoments.map((moment) => moment + origin), tangents });
      near(moved.slope.value, plain.slope.value, 1e-8);
      expect(moved.listTangent + moved.slope.value * origin).toBeCloseTo(plain.listTangent, 7);
    }),
    { numRuns: 80 },
  );
});

test('law: each state read twice alike leaves the slope', () => {
  fc.assert(
    fc.property(problems, (problem) => {
      const { heelingMoments: moments, tangents } = problem;
      const plain = fitLine({ moments, tangents });
      const twice = fitLine({
        moments: [...moments, ...moments],
        tangents: [...tangents, ...tangents],
      });
      near(twice.slope.value, plain.slope.value, 1e-3);
    }),
    { numRuns: 40 },
  );
});
