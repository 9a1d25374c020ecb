import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chainAfter, EMPTY_CHAIN } from '#core/record/chain.ts';
import { nodeSha256Hex } from '#receiver/node-digest.ts';
import { startProgram } from '#tests/support/programs.ts';
import { shortDay } from '#tests/support/short-day.ts';

const folder = mkdtempSync(join(tmpdir(), 'recompute-'));
let path = '';
let lines: string[] = [];
beforeAll(async () => {
  path = await shortDay({ folder, roll: true });
  lines = readFileSync(path, 'utf8').split(/(?<=\n)/);
}, 180_000);
afterAll(() => rmSync(folder, { recursive: true }));

interface Answer {
  readonly differ: number;
  readonly rollRuns: readonly { readonly outcome: string; readonly found: string | null }[];
  readonly readings: readonly {
    readonly state: number;
    readonly outcome: string;
    readonly differenceDeg: number | null;
    readonly found: string | null;
  }[];
}

async function recompute(record: string): Promise<{ exit: number | null; answer: Answer }> {
  const program = startProgram('receiver', ['replay', record, '--recompute', '--json']);
  await once(program.child, 'close');
  return { exit: program.child.exitCode, answer: JSON.parse(program.said) as Answer };
}

/** The record with one change, its chain made whole again as a forger would. */
function forged(name: string, change: (text: string) => string): string {
  let chain = EMPTY_CHAIN;
  const bytes = lines.map((text) => {
    const line = Buffer.from(
      change(text).replace(/"prev":"[0-9a-f]{64}"/, `"prev":"${chain.head}"`),
    );
    chain = chainAfter(chain, line, nodeSha256Hex);
    return line;
  });
  const to = join(folder, name);
  writeFileSync(to, Buffer.concat(bytes));
  return to;
}

describe('every reading estimated again from its blocks', () => {
  it('is the reading the receiver took, to the last digits', async () => {
    const { exit, answer } = await recompute(path);
    expect(answer.readings.map(({ state, outcome, found }) => ({ state, outcome, found }))).toEqual(
      [0, 1, 2].map((state) => ({ state, outcome: 'same', found: null })),
    );
    expect(answer.rollRuns.length).toBeGreaterThan(0);
    for (const run of answer.rollRuns) expect(run).toMatchObject({ outcome: 'same', found: null });
    expect(exit).toBe(0);
  }, 60_000);

  it('shows a heel that was changed, in a chain that holds', async () => {
    let changed = 0;
    const record = forged('heel.hwr', (text) => {
      if (!text.includes('"kind":"reading"') || !text.includes('"state":1')) return text;
      changed += 1;
      return text.replace(/"heelDeg":([0-9.]+)/, (_, heel) => `"heelDeg":${Number(heel) + 1e-8}`);
    });
    expect(changed).toBe(1);
    const { exit, answer } = await recompute(record);
    expect(answer.readings.map(({ outcome }) => outcome)).toEqual(['same', 'differs', 'same']);
    expect(exit).toBe(4);
  }, 60_000);

  it('shows samples that were changed', async () => {
    const reading = lines.findIndex((text) => /"kind":"reading".*"body":\{.*"state":1/.test(text));
    const block = lines.findLastIndex(
      (text, k) => k < reading - 60 && text.includes('"kind":"samples"'),
    );
    expect(block).toBeGreaterThan(0);
    const record = forged('samples.hwr', (text) => {
      if (text !== lines[block]) return text;
      const at = text.indexOf('"columns":');
      const end = text.indexOf(']]', at) + 2;
      const counts = text.slice(at, end).replace(/\d(?=[,\]])/g, (digit) => `${9 - Number(digit)}`);
      return text.slice(0, at) + counts + text.slice(end);
    });
    expect((await recompute(record)).exit).toBe(4);
  }, 60_000);

  it('says when another estimator made the reading, and compares nothing', async () => {
    const record = forged('estimator.hwr', (text) =>
      text.replace(/"estimator":"[^"]*"/, '"estimator":"whole-roll-0"'),
    );
    const { exit, answer } = await recompute(record);
    expect(exit).toBe(0);
    expect(answer.readings.map(({ outcome }) => outcome)).toEqual(Array(3).fill('not-repeated'));
    expect(answer.readings[0]?.found).toMatch(/whole-roll-0/);
  }, 60_000);
});
