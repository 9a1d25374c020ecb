import { expect, test } from 'vitest';
import { reduceTest } from '#core/reduction/reduce-test.ts';
import { reductionOutput } from '#core/reduction/reduction-output.ts';
import type { TestInput } from '#core/reduction/test-input.ts';

const GM = 0.9;
const DISPLACEMENT = 60;
const MOMENTS = [0, 1.8, 3.6, 1.8, 0, -1.8, -3.6, -1.8, 0];
const tangents = MOMENTS.map((moment, i) => 0.002 + moment / (DISPLACEMENT * GM) + 1e-5 * (i % 3));

/** The same test read by four instruments in their own ways, 1 to 9 states. */
function written(states: number): TestInput {
  return {
    heelwrightTest: 1,
    name: 'by hand',
    displacement: { value: DISPLACEMENT, standardUncertainty: 0.3 },
    km: { value: 2.9, standardUncertainty: 0.008 },
    instruments: [
      { instrument: 'pendulum', reads: 'deflection', length: 1500, scaleUncertainty: 0.001 },
      { instrument: 'tube', reads: 'level-difference', length: 4.2, scaleUncertainty: 0.001 },
      { instrument: 'plain', reads: 'tangent' },
      { instrument: 'inclinometer', reads: 'heel-deg', scaleUncertainty: 0.0015 },
    ],
    states: MOMENTS.slice(0, states).map((heelingMoment, i) => ({
      heelingMoment,
      readings: {
        pendulum: 1500 * tangents[i]!,
        tube: 4.2 * tangents[i]!,
        plain: tangents[i]!,
        inclinometer: (Math.atan(tangents[i]!) * 180) / Math.PI,
      },
    })),
  };
}

test('four ways of reading one heel tell one story', () => {
  const output = reduceTest(written(9));
  const gms = output.instruments.map((one) => one.alone!.gmFluid!.value);
  for (const gm of gms) expect(gm).toBeCloseTo(output.classical.gmFluid!.value, 10);
  expect(Math.abs(output.classical.gmFluid!.value - GM)).toBeLessThan(0.001);
  const { gmFluid, kgFluid } = output.classical;
  expect(kgFluid!.value + gmFluid!.value).toBeCloseTo(2.9, 12);
});

test('the output keeps to its schema, JSON and back', () => {
  const output = reduceTest(written(9));
  expect(reductionOutput.parse(JSON.parse(JSON.stringify(output)))).toEqual(output);
});

test('an instrument read in some states only stands beside the others', () => {
  const test9 = written(9);
  test9.states[2]!.readings['pendulum'] = null;
  delete test9.states[5]!.readings['tube'];
  const output = reduceTest(test9);
  expect(output.instruments.map((one) => one.readings)).toEqual([8, 8, 9, 9]);
  expect(Math.abs(output.classical.gmFluid!.value - GM)).toBeLessThan(0.001);
});

test('fewer than three states are refused with a code', () => {
  expect(() => reduceTest(written(2))).toThrow(/input-too-few.*2 read/);
});

test('without a displacement there is only displacement times GM', () => {
  const { displacement: _, km: __, ...bare } = written(9);
  const output = reduceTest(bare);
  expect(output.classical.gmFluid).toBeNull();
  expect(output.classical.kgFluid).toBeNull();
  expect(Math.abs(output.classical.stiffness.value - DISPLACEMENT * GM)).toBeLessThan(0.05);
});

test('moves of weights give the moments they sum to', () => {
  const distances = [3.6, 0, -3.6, 0, -3.6, 0, 3.6, 0];
  const byMoves: TestInput = {
    ...written(9),
    weights: [
      { weight: 'A', mass: 0.5, standardUncertainty: 0.0005 },
      { weight: 'B', mass: 0.5 },
    ],
    distanceUncertainty: 0.003,
    states: written(9).states.map(({ readings }, i) => ({
      readings,
      moves:
        i === 0
          ? []
          : [{ weight: i % 2 === 1 ? 'A' : 'B', distance: distances[i - 1]! || turn(i) }],
    })),
  };
  const output = reduceTest(byMoves);
  expect(output.points.map((point) => point.heelingMoment)).toEqual(
    MOMENTS.map((moment) => expect.closeTo(moment, 12)),
  );
  expect(output.classical.budget.map((row) => row.cause)).toContain('distances moved');
  expect(output.notStated).toContain('mass of B');
  expect(output.notStated).not.toContain('mass of A');
});

/** B goes across in states 2, 4, 6 and 8, the way the moment needs. */
function turn(state: number): number {
  return (MOMENTS[state]! - MOMENTS[state - 1]!) / 0.5;
}

test('a reading out of all reason is refused with its place', () => {
  const slip = written(9);
  slip.states[3]!.readings['inclinometer'] = 95;
  expect(() => reduceTest(slip)).toThrow(/input-range.*states\[3\]\.readings\.inclinometer/);
});

test("with c2 the metacentre's movement is the headline, with its own uncertainty", () => {
  const output = reduceTest({
    ...written(9),
    metacentreMovement: { value: 1, standardUncertainty: 0.2 },
    together: [{ cause: 'draught', displacement: 0.4, km: -0.002 }],
  });
  expect(output.headline).toBe('metacentre-movement');
  const causes = output.metacentreMovement!.budget.map((row) => row.cause);
  expect(causes).toContain("metacentre's movement");
  expect(causes).toContain('draught');
  // c2 tan2 of some 2.5 degrees is taken off
  const difference = output.classical.gmFluid!.value - output.metacentreMovement!.gmFluid!.value;
  expect(difference).toBeGreaterThan(0.002);
  expect(difference).toBeLessThan(0.006);
});

test('evidence is printed beside what no plot can show', () => {
  const output = reduceTest({ ...written(9), evidence: { 'common-mass': 'scale checked' } });
  expect(output.cannotShow.find((one) => one.what.startsWith('all weights'))!.evidence).toBe(
    'scale checked',
  );
});

test('movements are left out only by a rule that is on, on a plot without trouble', () => {
  const recheckAfterSeven = { recheckAfterSeven: true, completeAfterSix: false };
  expect(reduceTest(written(8)).mayOmit).toBe('not-allowed');
  expect(reduceTest({ ...written(8), skipRules: recheckAfterSeven }).mayOmit).toBe(
    'movement-eight',
  );
  expect(reduceTest({ ...written(7), skipRules: recheckAfterSeven }).mayOmit).toBe('not-allowed');
  const completeAfterSix = { recheckAfterSeven: false, completeAfterSix: true };
  expect(reduceTest({ ...written(7), skipRules: completeAfterSix }).mayOmit).toBe(
    'all-that-is-left',
  );
  expect(reduceTest({ ...written(9), skipRules: recheckAfterSeven }).mayOmit).toBe('not-yet');
});

test('each move of one weight is given on every batten, as long as its own pendulum', () => {
  const { states, ...rest } = written(9);
  const moves = states.map(({ heelingMoment, readings }, k) => ({
    readings,
    moves:
      k === 0
        ? []
        : [{ weight: 'A', distance: (heelingMoment! - states[k - 1]!.heelingMoment!) / 0.6 }],
  }));
  const output = reduceTest({ ...rest, weights: [{ weight: 'A', mass: 0.6 }], states: moves });
  for (const { onBatten, distance, actsAs } of output.moves) {
    const [pendulum, tube] = onBatten;
    expect(onBatten).toHaveLength(2);
    expect(pendulum!.off / tube!.off).toBeCloseTo(1500 / 4.2, 6);
    expect(pendulum!.seen / pendulum!.written).toBeCloseTo(actsAs / distance, 9);
  }
});

test('free liquid is excluded only by spaces sounded, opened and seen', () => {
  const spacesSeen = [{ space: 'bilge', sounded: true, opened: true, by: 'M. Adair' }];
  const evidence = (more: Partial<TestInput>) =>
    reduceTest({ ...written(9), ...more }).cannotShow.find((one) => one.what.includes('full width'))
      ?.evidence;
  expect(evidence({})).toBe('none');
  expect(evidence({ spacesSeen })).toContain('bilge by M. Adair');
  expect(evidence({ evidence: { 'full-width-liquid': 'dry' } })).toContain('not excluded');
});

test('GM over three times KG is warned of without a survey, and only there', () => {
  const states = [0, 1, 2, 1, 0, -1, -2].map((moment, k) => ({
    heelingMoment: moment,
    readings: { pendulum: moment / 60 + 1e-5 * (k % 3) },
  }));
  const of = (km: number) =>
    reduceTest({
      heelwrightTest: 1,
      name: 'raft',
      displacement: { value: 20, standardUncertainty: 0 },
      km: { value: km, standardUncertainty: 0 },
      instruments: [{ instrument: 'pendulum', reads: 'tangent' }],
      states,
    }).advice.map(({ code }) => code);
  // GM 3 m, KG 0.9 and 1.1
  expect(of(3.9)).toContain('gm-over-three-kg');
  expect(of(4.1)).not.toContain('gm-over-three-kg');
});
