import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { EMPTY_CHAIN } from '#core/record/chain.ts';
import type { EntryLine } from '#core/record/entry-line.ts';
import { followLine } from '#core/record/follow-chain.ts';
import type { LineKind } from '#core/record/line.ts';
import { lineBytes } from '#core/record/write-line.ts';
import { reductionOutput } from '#core/reduction/reduction-output.ts';
import type { DayReduction } from '#core/session/day-reduction.ts';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionResult } from '#core/session/session-result.ts';
import { marramSurvey } from '#device/emulated/marram-survey.ts';
import { registerReduce } from '#receiver/commands/reduce.ts';
import { nodeSha256Hex } from '#receiver/node-digest.ts';
import { floatedTest } from '#tests/core/reduction/a-floated-test.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { BOX_KN_CSV, BOX_OFFSETS_CSV, BOX_TABLE_CSV } from '#tests/support/box-files.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'reduce-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  vi.restoreAllMocks();
  process.exitCode = undefined;
});

const published = (name: string) =>
  (
    JSON.parse(readFileSync(new URL(`../../published/${name}.json`, import.meta.url), 'utf8')) as {
      input: Record<string, unknown>;
    }
  ).input;

/** Runs the command on a text and gives what it said and how it ended. */
async function run(text: string | Uint8Array | null, ...options: string[]) {
  const file = join(folder, 'test.json');
  if (text !== null) writeFileSync(file, text);
  const said: string[] = [];
  const complained: string[] = [];
  vi.spyOn(console, 'log').mockImplementation((words: string) => void said.push(words));
  vi.spyOn(console, 'error').mockImplementation((words: string) => void complained.push(words));
  const program = new Command('heelwright').exitOverride();
  registerReduce(program);
  await program.parseAsync(['reduce', file, ...options], { from: 'user' });
  return {
    said: said.join('\n'),
    complained: complained.join('\n'),
    exit: Number(process.exitCode ?? 0),
  };
}

test('Hansen in words: the honest interval, the step, and what no plot can show', async () => {
  const { said, exit } = await run(JSON.stringify(published('hansen-1985')));
  expect(exit).toBe(0);
  expect(said).toContain('208495 ± 2632 ton·ft');
  expect(said).toContain('F(6,14) 8.9706');
  expect(said).toContain('F(2,14) 74.247');
  expect(said).toContain('Seen in the plot: a step.');
  expect(said).toContain('What no plot can show');
  expect(said).toContain('No approval');
});

test('GM is never printed without the word fluid', async () => {
  const { said } = await run(JSON.stringify(published('box-hull-test')));
  for (const line of said.split('\n').filter((one) => /\bGM\b/.test(one))) {
    expect(line).toMatch(/fluid|solid|of GM/);
  }
  expect(said).toContain('0.5527 ± 0.0013 m');
});

test('JSON keeps to the published schema and rounds nothing', async () => {
  const { said } = await run(JSON.stringify(published('hansen-1985')), '--json');
  const output = reductionOutput.parse(JSON.parse(said));
  expect(output.line.slope.standardUncertainty).toBeCloseTo(2.4744545e-8, 15);
});

test('with --untroubled a shape in the plot ends in 4', async () => {
  const hansen = JSON.stringify(published('hansen-1985'));
  expect((await run(hansen, '--untroubled')).exit).toBe(4);
});

test('a test that does not hold its form is refused, each fault with its path, exit 3', async () => {
  const bad = { ...published('hansen-1985'), states: [{ heelingMoment: 'much', readings: {} }] };
  const { complained, exit } = await run(JSON.stringify(bad));
  expect(exit).toBe(3);
  expect(complained).toContain('states[0].heelingMoment: input-shape');
  const asJson = await run(JSON.stringify(bad), '--json');
  expect(JSON.parse(asJson.complained)).toMatchObject({
    refused: [{ code: 'input-shape', where: 'states[0].heelingMoment' }],
  });
});

test('two states are refused with the code of too few, exit 3', async () => {
  const input = published('hansen-1985') as { states: unknown[] };
  const { complained, exit } = await run(
    JSON.stringify({ ...input, states: input.states.slice(0, 2) }),
  );
  expect([exit, complained.slice(0, 13)]).toEqual([3, 'input-too-few']);
});

test('a file that is not there is refused, exit 3', async () => {
  const { complained, exit } = await run(null);
  expect(exit).toBe(3);
  expect(complained).toContain('file-not-readable');
});

/** The lines of a simulated day as the receiver writes them, chained. */
function recordOfADay(survey: readonly EntryLine[] = []): Uint8Array {
  const day = aDay({ stateDeg: 0.01, readingDeg: 0.004 });
  const bodies: [LineKind, unknown][] = [
    ['record-opened', { record: 'r', format: 1, program: 'test' }],
    ['test-opened', day.test],
    ...day.mountings.map((body): [LineKind, unknown] => ['mounting', body]),
    ...day.certificates.map((body): [LineKind, unknown] => ['certificate', body]),
    ...day.states.flatMap(({ state, moves, heelingMomentTM, reading }): [LineKind, unknown][] => {
      const predicted = { predictedHeelDeg: null, predictedStandardErrorDeg: null };
      const begun = { state, moves, heelingMomentTM, ...predicted };
      return [
        ...(state === 0
          ? []
          : [
              ['shift-begun', begun] as [LineKind, unknown],
              ['weight-landed', { state, landedS: 10 * state }] as [LineKind, unknown],
            ]),
        ['reading', reading],
      ];
    }),
    ...survey.map((body): [LineKind, unknown] => ['entry', body]),
  ];
  let chain = EMPTY_CHAIN;
  const lines = bodies.map(([kind, body]) => {
    const line = lineBytes(chain, {
      kind,
      wall: '2026-05-04T09:00:00.000Z',
      receiverS: chain.next,
      author: 'A. Rowan',
      role: 'architect',
      bodyText: JSON.stringify(body),
    });
    chain = followLine(chain, line, nodeSha256Hex).chain;
    return line;
  });
  return Buffer.concat(lines);
}

test('a record is reduced as the screen shows it', async () => {
  const record = recordOfADay();
  const { said, exit } = await run(record);
  expect(exit).toBe(0);
  expect(said).toMatch(/GM \(fluid\), classical line +0\.\d+ ± 0\.\d+ m/);
  const asJson = JSON.parse((await run(record, '--json')).said) as SessionResult;
  expect(asJson.gmFluidM!.value).toBe(
    resultOfSession(aDay({ stateDeg: 0.01, readingDeg: 0.004 })).gmFluidM!.value,
  );
});

test('with a survey in it the lightship, the end of the day and what is not entered follow', async () => {
  const record = recordOfADay(marramSurvey(5));
  const { said, exit } = await run(record);
  expect(exit).toBe(0);
  expect(said).toContain('By her hull, as she floats');
  expect(said).toMatch(/KG \(solid\), exact equation/);
  expect(said).toContain('The end of the day against its beginning');
  expect(said).toContain('not everything was taken again');
  expect(said).toContain('2 freeboards to port again');
  const json = JSON.parse((await run(record, '--json')).said) as { day: DayReduction };
  expect(json.day.reduction!.lightship!.provisional).toBe(true);
});

test('a record whose chain does not hold is refused', async () => {
  const record = Buffer.from(recordOfADay());
  record[record.indexOf('Marram') + 1] = 0x62;
  const { complained, exit } = await run(record);
  expect(exit).toBe(3);
  expect(complained).toContain('record-');
});

const AFLOAT = {
  ...floatedTest(2),
  survey: {
    items: [
      {
        item: 'A',
        kind: 'test-weight',
        massT: 2,
        massUncertaintyT: 0.001,
        at: { xM: 10, yM: 0, zM: 3 },
        placeUncertaintyM: 0.01,
        photographLine: null,
      },
    ],
  },
};

test('a hull beside the test: from freeboards and water to KG solid and the lightship', async () => {
  writeFileSync(join(folder, 'box.csv'), BOX_OFFSETS_CSV);
  const json = await run(JSON.stringify(AFLOAT), '--json');
  const output = reductionOutput.parse(JSON.parse(json.said));
  expect(output.headline).toBe('exact');
  expect(output.float!.displacement.value).toBeCloseTo(184.5, 3);
  expect(output.exact!.kgSolid.value).toBeCloseTo(2, 4);
  expect(output.lightship!.mass.value).toBeCloseTo(184.5 - 6.8 - 2, 3);
  const { said } = await run(JSON.stringify(AFLOAT));
  expect(said).toMatch(/KG \(solid\), exact equation +2\.00/);
  expect(said).toContain('As she floats');
  expect(said).toContain('What to measure again');
  expect(said).toMatch(/Lightship, provisional/);
});

test('tables instead of the hull: exact where they give KN, never extrapolated', async () => {
  writeFileSync(join(folder, 'table.csv'), BOX_TABLE_CSV);
  writeFileSync(join(folder, 'kn.csv'), BOX_KN_CSV);
  const tables = { file: 'table.csv', densityKgM3: 1025, knFile: 'kn.csv' };
  const json = await run(JSON.stringify({ ...AFLOAT, hull: { tables } }), '--json');
  const output = reductionOutput.parse(JSON.parse(json.said));
  expect(output.exact!.kgSolid.value).toBeCloseTo(2, 3);
  const deep = floatedTest(2);
  for (const one of deep.waterline!.freeboards!) one.freeboardM -= 0.6;
  const { complained, exit } = await run(JSON.stringify({ ...deep, hull: { tables } }));
  expect(exit).toBe(3);
  expect(complained).toContain('tables-outside');
});

test('a hull in another folder is not looked for, a missing one is refused by name', async () => {
  const other = await run(JSON.stringify({ ...AFLOAT, hull: { file: '../box.csv' } }));
  expect([other.exit, other.complained]).toEqual([3, expect.stringContaining('without a folder')]);
  const missing = await run(JSON.stringify({ ...AFLOAT, hull: { file: 'gone.csv' } }));
  expect([missing.exit, missing.complained]).toEqual([
    3,
    expect.stringContaining('file-not-readable'),
  ]);
});
