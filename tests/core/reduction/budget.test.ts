import { expect, test } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { type Answer, answerWithBudget, type Causes } from '#core/reduction/budget.ts';
import type { GmProblem } from '#core/reduction/gm.ts';

/** The box hull (L 20, B 6, T 1.5 m, KG 2.2, c2 1.0) inclined by weights of 1 t carried 3 m. */
const HEELS: Record<number, number> = {
  0: 0.416649172,
  1: 2.104469234,
  2: 3.769239231,
  [-1]: -1.275830277,
  [-2]: -2.954143277,
};
const ACROSS = ['', 'A', 'AB', 'A', '', 'C', 'CD', 'C', ''];
const WAY: Record<string, number> = { A: 3, B: 3, C: -3, D: -3 };
const radians = Math.PI / 180;

const weights = Object.entries(WAY).map(([weight, y]) => ({
  weight,
  mass: 1,
  massUncertainty: 0,
  moved: ACROSS.map((across) => ({ y: across.includes(weight) ? y : 0, z: 0 })),
}));
const heelingMoments = ACROSS.map((_, i) => weights.reduce((sum, one) => sum + one.moved[i]!.y, 0));

const problem: GmProblem = {
  displacement: 184.5,
  heelingMoments,
  verticalMoments: ACROSS.map(() => 0),
  tangents: heelingMoments.map((moment) => [Math.tan(HEELS[moment / 3]! * radians)]),
  metacentreMovement: 1,
};

/** Draught 5 mm: 184.5 t / 1.5 m, dKM/dT = 1/2 - B2/(12 T2), c2 = BM/2. Density .5 kg/m3, volume known. */
const DRAUGHT = {
  cause: 'draught',
  displacement: 0.005 * 123,
  km: 0.005 * (0.5 - 36 / 12 / 2.25),
  metacentreMovement: -0.005 / 1.5,
};
const DENSITY = {
  cause: 'density',
  displacement: (184.5 * 0.5) / 1025,
  km: 0,
  metacentreMovement: 0,
};

const causes: Causes = {
  displacementUncertainty: 0,
  km: { value: 2.75, standardUncertainty: 0 },
  metacentreMovementUncertainty: 0,
  together: [DRAUGHT, DENSITY],
  weights,
  massScaleUncertainty: 0.0005,
  distanceUncertainty: 0.005,
  momentScaleUncertainty: 0,
  instruments: [{ instrument: 'inclinometer', scaleUncertainty: 0, space: 'angle' }],
  angleScaleUncertainty: 0.001,
};

const kgMm = (answer: Answer, cause: string) =>
  1000 * answer.budget.find((row) => row.cause === cause)!.kg!;

// Contributions to KG calculated apart from this program, in mm: .276, .921, .559, 2.333, .270.
test('the budget of the box test, cause by cause', () => {
  const answer = answerWithBudget(problem, causes);
  expect(kgMm(answer, 'scale of the balance')).toBeCloseTo(0.276, 2);
  expect(kgMm(answer, 'distances moved')).toBeCloseTo(0.921, 2);
  expect(Math.abs(kgMm(answer, 'angle scale of all instruments') - 0.559)).toBeLessThan(0.002);
  // KM falls and displacement grows with the draught: together 2.333, apart they would be 4.55
  expect(kgMm(answer, 'draught')).toBeCloseTo(2.333, 2);
  expect(kgMm(answer, 'density')).toBeCloseTo(0.27, 2);
  expect(answer.kg!.value).toBeCloseTo(2.2, 6);
});

/** The box with angles read to .005 degree: what they give to KG is .479 mm. */
function noisy(seed: number, angleDeg = 0.005): GmProblem {
  const random = createRandom(seed, 'budget');
  const tangents = heelingMoments.map((moment) => [
    Math.tan((HEELS[moment / 3]! + random.normal(angleDeg)) * radians),
  ]);
  return { ...problem, tangents };
}

test('angles of .005 degree give .479 mm, seen in the scatter and stated from it', () => {
  const runs = 250;
  let spread = 0;
  let stated = 0;
  for (let seed = 1; seed <= runs; seed++) {
    const answer = answerWithBudget(noisy(seed), { ...causes, together: [] });
    spread += (answer.gm.value - 0.55) ** 2;
    stated += (kgMm(answer, 'scatter of the states') / 1000) ** 2;
  }
  // 250 draws of a standard deviation: 4.5 %; of its root mean square estimate from 7: 1.7 %
  expect(Math.abs(1000 * Math.sqrt(spread / runs) - 0.479)).toBeLessThan(3 * 0.045 * 0.479);
  expect(Math.abs(1000 * Math.sqrt(stated / runs) - 0.479)).toBeLessThan(3 * 0.017 * 0.479);
});

// Angles of .005, .01, .02, .03 degree each: worked apart from this program, mm of KG together.
test.each([
  [0.005, 2.643],
  [0.01, 2.77],
  [0.02, 3.23],
  [0.03, 3.88],
])(
  'Monte Carlo of all causes agrees with the budget: angles of %d deg, %d mm of KG',
  (angleDeg, together) => {
    const random = createRandom(7, 'monte carlo');
    const runs = 250;
    let spread = 0;
    let stated = 0;
    for (let run = 0; run < runs; run++) {
      const measured = noisy(1000 + run, angleDeg);
      const distance = random.normal(0.005);
      const massScale = 1 + random.normal(0.0005);
      const angleScale = 1 + random.normal(0.001);
      const draught = random.normal();
      const density = random.normal();
      // what the surveyor believes, the vessel being as above
      const believed: GmProblem = {
        ...measured,
        displacement: 184.5 + draught * DRAUGHT.displacement + density * DENSITY.displacement,
        metacentreMovement: 1 + draught * DRAUGHT.metacentreMovement,
        heelingMoments: heelingMoments.map(
          (moment) => massScale * (moment + (moment / 3) * distance),
        ),
        tangents: measured.tangents.map((row) =>
          row.map((tangent) => Math.tan(Math.atan(tangent!) * angleScale)),
        ),
      };
      const km = { value: 2.75 + draught * DRAUGHT.km, standardUncertainty: 0 };
      const answer = answerWithBudget(believed, { ...causes, km });
      spread += (answer.kg!.value - 2.2) ** 2;
      stated += answer.kg!.standardUncertainty ** 2;
    }
    const seen = 1000 * Math.sqrt(spread / runs);
    expect(Math.abs(seen - together)).toBeLessThan(3 * 0.045 * together);
    expect(Math.abs(1000 * Math.sqrt(stated / runs) - together)).toBeLessThan(0.02 * together);
  },
);

test('freedom is that of the states where they rule, and grows as other causes do', () => {
  const alone = answerWithBudget(noisy(5), {
    ...causes,
    together: [],
    massScaleUncertainty: 0,
    distanceUncertainty: 0,
    angleScaleUncertainty: 0,
  });
  expect(alone.gm.degreesOfFreedom).toBeCloseTo(7, 10);
  expect(answerWithBudget(noisy(5), causes).gm.degreesOfFreedom).toBeGreaterThan(20);
});

test('without KM there is no KG, and displacement times GM is free of the displacement', () => {
  const answer = answerWithBudget(problem, {
    ...causes,
    km: null,
    together: [],
    displacementUncertainty: 2,
  });
  expect(answer.kg).toBeNull();
  expect(answer.budget.every((row) => row.kg === null)).toBe(true);
  expect(answer.stiffness.standardUncertainty / answer.stiffness.value).toBeLessThan(
    answer.gm.standardUncertainty / answer.gm.value,
  );
});

test('scales of three instruments average, each being independent', () => {
  const three: GmProblem = {
    ...problem,
    metacentreMovement: 0,
    tangents: problem.tangents.map((row) => [row[0]!, row[0]!, row[0]!]),
  };
  const answer = answerWithBudget(three, {
    ...causes,
    angleScaleUncertainty: 0,
    together: [],
    instruments: ['a', 'b', 'c'].map((instrument) => ({
      instrument,
      scaleUncertainty: 0.0015,
      space: 'tangent' as const,
    })),
  });
  for (const name of ['a', 'b', 'c']) {
    const row = answer.budget.find((one) => one.cause === `scale of ${name}`)!;
    expect(row.gm / answer.gm.value).toBeCloseTo(0.0005, 7);
  }
});

test('one sine bar for three instruments is one error, whatever their number', () => {
  const of = (share: number) =>
    answerWithBudget(
      {
        ...problem,
        metacentreMovement: 0,
        tangents: problem.tangents.map((row) => [row[0]!, row[0]!, row[0]!]),
      },
      {
        ...causes,
        angleScaleUncertainty: 0,
        together: [],
        instruments: ['a', 'b', 'c'].map((instrument) => ({
          instrument,
          scaleUncertainty: 0.0015,
          standard: { number: 'B1', commonShare: share },
          space: 'tangent' as const,
        })),
      },
    );
  const row = (share: number, cause: string) => {
    const answer = of(share);
    return answer.budget.find((one) => one.cause === cause)!.gm / answer.gm.value;
  };
  expect(row(0.0015, 'calibration standard B1')).toBeCloseTo(0.0015, 6);
  expect(row(0.0009, 'calibration standard B1')).toBeCloseTo(0.0009, 6);
  // What is left to each alone: sqrt(0.0015^2 - 0.0009^2) = 0.0012, a third of it each.
  expect(row(0.0009, 'scale of b')).toBeCloseTo(0.0004, 6);
});
