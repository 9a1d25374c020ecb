import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { reduceTest } from '#core/reduction/reduce-test.ts';
import type { TestInput } from '#core/reduction/test-input.ts';
import { hullOfTest } from '#receiver/test-hull.ts';
import { floatedTest } from '#tests/core/reduction/a-floated-test.ts';
import { BOX_OFFSETS_CSV } from '#tests/support/box-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'test-hull-'));
afterAll(() => rmSync(folder, { recursive: true }));
writeFileSync(join(folder, 'box.csv'), BOX_OFFSETS_CSV);
const spots = (broaderM: number) =>
  JSON.stringify([4, 10, 16].map((xM) => ({ xM, beam: { zM: 1.4, beamM: 6 + broaderM } })));
writeFileSync(join(folder, 'spots.json'), spots(0.06));

const reduced = async (hull: TestInput['hull']) => {
  const test = { ...floatedTest(2), hull };
  return reduceTest(test, await hullOfTest(test, join(folder, 'test.json')));
};

it('carries spot checks of the hull into displacement, KM and the budget of KG by a line of their own', async () => {
  const plain = await reduced({ file: 'box.csv' });
  const checked = await reduced({ file: 'box.csv', check: 'spots.json' });
  const line = 'the lines plan: beam at 3 stations';
  const of = (output: typeof plain) =>
    output.exact!.budget.find(({ cause }) => cause.startsWith(line));
  expect(of(plain)).toBeUndefined();
  // one hundredth broader: 1 % of 184.5 t and 2 % of BM, 2 m (36 / 12 / 1.5)
  expect(checked.float!.hullKnown!.causes[0]).toMatchObject({ cause: line, correlation: 1 });
  expect(checked.float!.hullKnown!.causes[0]!.displacementT).toBeCloseTo(1.845, 3);
  expect(checked.float!.hullKnown!.causes[0]!.kmM).toBeCloseTo(0.04, 4);
  // KG = KM - stiffness / displacement: both push it up together
  expect(of(checked)!.kg).toBeCloseTo(0.04 + 0.01 * plain.exact!.gmFluid.value, 3);
  expect(checked.exact!.kgSolid.value).toBe(plain.exact!.kgSolid.value);
  expect(checked.exact!.kgSolid.halfWidth95).toBeGreaterThan(plain.exact!.kgSolid.halfWidth95);
});

it('takes points measured ashore as the hull, and their errors as a cause', async () => {
  const points = [0, 4, 8, 12, 16, 20].flatMap((x) =>
    [
      [0, 0],
      [1.5, 0],
      [3, 0],
      [3, 0.65],
      [3, 1.3],
      [3, 1.95],
      [3, 2.6],
    ].map(([y, z]) => `${x},${y},${z}`),
  );
  writeFileSync(join(folder, 'points.csv'), ['xM,yM,zM', ...points].join('\n'));
  const { float, classical } = await reduced({ points: 'points.csv' });
  expect(float!.displacement.value).toBeCloseTo(184.5, 1);
  expect(float!.hullKnown!.measured!.pointUncertaintyM).toBeGreaterThan(0);
  expect(classical.budget.some(({ cause }) => cause === 'points measured off the hull')).toBe(true);
}, 30_000);
