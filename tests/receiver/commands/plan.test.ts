import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { planOutput } from '#core/reduction/plan-output.ts';
import { registerPlan } from '#receiver/commands/plan.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { BOX_OFFSETS_CSV } from '#tests/support/box-files.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'plan-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  vi.restoreAllMocks();
  process.exitCode = undefined;
});

async function run(input: unknown, ...options: string[]) {
  const file = join(folder, 'plan.json');
  writeFileSync(file, JSON.stringify(input));
  const said: string[] = [];
  const complained: string[] = [];
  vi.spyOn(console, 'log').mockImplementation((words: string) => void said.push(words));
  vi.spyOn(console, 'error').mockImplementation((words: string) => void complained.push(words));
  const program = new Command('heelwright').exitOverride();
  registerPlan(program);
  await program.parseAsync(['plan', file, ...options], { from: 'user' });
  return {
    said: said.join('\n'),
    complained: complained.join('\n'),
    exit: Number(process.exitCode ?? 0),
  };
}

const at = (yM: number) => ({ xM: 6, yM, zM: 2.4 });
const PLAN = {
  heelwrightPlan: 1,
  name: 'invented boat',
  displacementT: { value: 60, standardUncertainty: 0.3 },
  kmM: { value: 2.9, standardUncertainty: 0.01 },
  gmGuessM: { value: 0.9, standardUncertainty: 0.2 },
  weights: [{ weight: 'A', massT: 0.5, standardUncertaintyT: 0.001, at: at(-1.8) }],
  distanceUncertaintyM: 0.005,
  shifts: [{ moves: [{ weight: 'A', to: at(1.8) }] }, { moves: [{ weight: 'A', to: at(-1.8) }] }],
  instruments: [{ instrument: 'pendulum', reads: 'deflection', lengthMm: 2400 }],
  stateUncertaintyDeg: 0.01,
};

test('heels, deflections, when to stop and what to expect', async () => {
  const { said, exit } = await run(PLAN);
  expect(exit).toBe(0);
  // 1.8 t m on 60 t and 0.9 m: 1.909 degrees, 80 mm on 2.4 m, back at 2.86
  expect(said).toMatch(/^1 +1\.8 +1\.91 .* 2\.86 +80$/m);
  expect(said).toContain('Weight back and people off');
  expect(said).toContain('must swing free');
  expect(said).toMatch(/KG \(of fluid GM\) +2\.\d+ ±/);
  expect(said).toContain('pendulum to starboard');
  expect(said).toContain('No approval');
});

test('JSON keeps to its schema', async () => {
  const { said } = await run(PLAN, '--json');
  const output = planOutput.parse(JSON.parse(said));
  expect(output.shifts[1]!.heelDeg).toBeCloseTo(0, 12);
  expect(output.safety.join()).toContain('Movements planned: 2');
});

test('the test that receive opens is taken as its own plan', async () => {
  const opened = aDay().test!;
  const plan = [1.8, -1.8].map((yM) => ({ moves: [{ weight: 'A', to: { xM: 8, yM, zM: 2.4 } }] }));
  const { said, exit } = await run({ ...opened, plan }, '--json');
  expect(exit).toBe(0);
  const output = planOutput.parse(JSON.parse(said));
  expect(output.gmM.value).toBe(opened.particulars.gmGuessM);
  expect(output.shifts).toHaveLength(2);
});

test('a plan that moves what is not there is refused with its place', async () => {
  const shifts = [...PLAN.shifts, { moves: [{ weight: 'X', to: at(1) }] }];
  const { complained, exit } = await run({ ...PLAN, shifts });
  expect(exit).toBe(3);
  expect(complained).toMatch(/input-contradiction.*shifts.*no weight is called X/);
  expect((await run({ ...PLAN, name: '' })).exit).toBe(3);
});

test('with a hull the deck edge is looked at twice the planned heel', async () => {
  writeFileSync(join(folder, 'box.csv'), BOX_OFFSETS_CSV);
  // 2.4 m of draught leaves 0.2 m to the deck: under water at atan(.2 / 3) = 3.8 degrees
  const displacementT = { value: 120 * 2.4 * 1.025, standardUncertainty: 1 };
  const deep = { ...PLAN, displacementT, hull: { file: 'box.csv', densityKgM3: 1025 } };
  const heavy = { ...deep, weights: [{ ...PLAN.weights[0]!, massT: 5 }] };
  const { said } = await run(heavy, '--json');
  const advice = planOutput.parse(JSON.parse(said)).advice;
  const deck = advice.find((one) => one.code === 'deck-edge-near')!;
  expect(deck.where).toBe('to starboard');
  expect(deck.found!).toBeCloseTo((Math.atan(0.2 / 3) * 180) / Math.PI, 1);
  const light = { ...deep, displacementT: PLAN.displacementT };
  expect((await run(light, '--json')).said).not.toContain('deck-edge-near');
});
