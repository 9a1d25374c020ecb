import { expect, test } from 'vitest';
import { hullAfloat } from '#core/flotation/hull-afloat.ts';
import { reduceTest } from '#core/reduction/reduce-test.ts';
import { reductionOutput } from '#core/reduction/reduction-output.ts';
import { BOX_HULL, BOX_LENGTH_M } from '#tests/core/flotation/box-hull.ts';
import { floatedTest } from '#tests/core/reduction/a-floated-test.ts';

const hull = hullAfloat(BOX_HULL, BOX_LENGTH_M);

test('three answers side by side, the exact one the headline: KG solid as it is', () => {
  const output = reduceTest(floatedTest(), hull);
  expect(output.headline).toBe('exact');
  expect(output.exact!.kgSolid.value).toBeCloseTo(2, 6);
  expect(output.exact!.gmSolid.value).toBeCloseTo(0.75, 6);
  const freeSurface = (0.85 * 4 * 4 ** 3) / 12 / 184.5;
  expect(output.exact!.freeSurface).toBeCloseTo(freeSurface, 6);
  expect(output.metacentreMovement!.gmFluid!.value).toBeCloseTo(0.75 - freeSurface, 3);
  expect(Math.abs(output.classical.gmFluid!.value - (0.75 - freeSurface))).toBeGreaterThan(0.001);
  expect(reductionOutput.parse(JSON.parse(JSON.stringify(output)))).toEqual(output);
});

test('the authority may choose another answer; without KN there is no exact one', () => {
  const official = reduceTest({ ...floatedTest(), official: 'classical' }, hull);
  expect(official.headline).toBe('classical');
  const table = { ...hull, knOf: null };
  const output = reduceTest(floatedTest(), table);
  expect([output.headline, output.exact]).toEqual(['metacentre-movement', null]);
  expect(() => reduceTest({ ...floatedTest(), official: 'exact' }, table)).toThrow(
    /input-contradiction.*official/,
  );
  expect(() => reduceTest(floatedTest())).toThrow(/input-contradiction.*box.csv/);
});

test('the float is shown point by point, its causes in the budget, its list said', () => {
  const output = reduceTest(floatedTest(), hull);
  expect(output.float!.points).toHaveLength(10);
  expect(output.float!.points.every((one) => !one.bad)).toBe(true);
  const causes = output.exact!.budget.map((row) => row.cause);
  for (const cause of ['freeboards and draughts as read', 'volume of the hull', 'water density']) {
    expect(causes).toContain(cause);
  }
  expect(causes).toContain('free surface in fuel');
  const evidence = output.cannotShow.find((one) => one.what.startsWith('the displacement'))!;
  expect(evidence.evidence).toMatch(/10 freeboards/);
});

test('a freeboard read 60 mm wrong is named and advised on with its clause', () => {
  const written = floatedTest();
  written.waterline!.freeboards![3]!.freeboardM += 0.06;
  const output = reduceTest(written, hull);
  expect(output.float!.points[3]!.bad).toBe(true);
  const advice = output.advice.find((one) => one.code === 'level-off-plane')!;
  expect(advice.where).toBe('port 4');
  expect(advice.clause).toMatch(/4\.2\.8/);
});

test('the list by the waterline may stand for the list of the instruments', () => {
  const askew = floatedTest();
  for (const state of askew.states) state.readings['fore']! += 2;
  const plain = reduceTest(askew, hull).exact!.kgSolid.value;
  const righted = reduceTest({ ...askew, listFromWaterline: true }, hull).exact!;
  expect(Math.abs(righted.kgSolid.value - 2)).toBeLessThan(Math.abs(plain - 2) / 3);
  expect(righted.budget.map((row) => row.cause)).toContain('list of the first state');
});
