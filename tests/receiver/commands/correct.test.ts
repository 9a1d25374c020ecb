import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { lockRecord } from '#receiver/record-lock.ts';
import { fourStates, SECOND } from '#tests/support/four-states.ts';
import { startProgram } from '#tests/support/programs.ts';

const folder = mkdtempSync(join(tmpdir(), 'correct-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function run(...args: string[]): Promise<{ exit: number | null; said: string }> {
  const program = startProgram('receiver', args);
  await once(program.child, 'close');
  return { exit: program.child.exitCode, said: program.said };
}

const day = fourStates();
day.record.add('test-closed', { reason: 'done' });
const path = join(folder, 'day.hwr');
writeFileSync(path, day.record.bytes);
const file = (name: string, json: unknown) => {
  writeFileSync(join(folder, name), JSON.stringify(json));
  return join(folder, name);
};
const BY = ['--reason', 'calibrated again', '--author', 'A. Rowan'];

describe('correct', () => {
  it('writes to a closed record a line of who and why, and tells the issues', async () => {
    const certificate = file('c2.json', SECOND);
    const first = await run('correct', path, '--certificate', certificate, ...BY, '--json');
    expect(first.exit).toBe(0);
    const { line, issues } = JSON.parse(first.said) as {
      line: number;
      issues: { gmFluidM: { value: number } }[];
    };
    expect(line).toBe(day.record.lines.length);
    expect(issues[1]!.gmFluidM.value / issues[0]!.gmFluidM.value).toBeCloseTo(1.002 / 1.01, 3);
    const changes = file('mass.json', {
      line: day.opened,
      changes: [{ field: ['weights', 0, 'massT'], was: 0.25, is: 0.26 }],
    });
    const second = await run('correct', path, '--changes', changes, ...BY);
    expect(second.said).toMatch(/^Issue 1: GM \(fluid\) .* as first written$/m);
    expect(second.said).toMatch(/certificate C1 of fore replaced by C2: calibrated again/);
    expect(second.said).toMatch(/^ {2}weight A, mass, t: 0\.25, now 0\.26$/m);
    // What stood there stands there still, byte for byte.
    const bytes = readFileSync(path);
    expect(bytes.subarray(0, day.record.bytes.length).equals(day.record.bytes)).toBe(true);
    const [verified, reduced] = await Promise.all([
      run('verify', path),
      run('reduce', path, '--json'),
    ]);
    expect(verified.said).toMatch(new RegExp(`All ${line + 2} lines hold`));
    expect(JSON.parse(reduced.said)).toMatchObject({
      issue: 3,
      issues: [{ change: null }, { change: { kind: 'certificate-replaced' } }, { issue: 3 }],
    });
  });

  it('lists what can be corrected, and takes a void and its overruling', async () => {
    const [lines, fields] = await Promise.all([
      run('correct', path, '--fields'),
      run('correct', path, '--fields', `${day.shifts[1]}`),
    ]);
    expect(lines.said).toMatch(/^Line 1: test-opened, \d+ fields$/m);
    expect(fields.said).toMatch(
      /^\["moves",0,"to","yM"\] {2}weight A, set down to starboard of the centreline, m: 2$/m,
    );
    const voided = await run('correct', path, '--void', `${day.readings[2]}`, ...BY, '--json');
    const { line } = JSON.parse(voided.said) as { line: number };
    const back = await run('correct', path, '--overrule', `${line}`, ...BY);
    expect(back.said).toMatch(/state 2, put back: calibrated again \(line \d+, A\. Rowan/);
  });

  it('is refused with a code, and then writes nothing', async () => {
    const before = readFileSync(path);
    const wrong = file('wrong.json', {
      line: day.opened,
      changes: [{ field: ['weights', 0, 'massT'], was: 0.25, is: 0.27 }],
    });
    const none = join(folder, 'none.hwr');
    const asked: [string[], string][] = [
      [['--changes', wrong, ...BY], 'correction-unfit'],
      [['--certificate', file('c1.json', { ...SECOND, number: 'C1' }), ...BY], 'certificate-unfit'],
      [['--overrule', '4', ...BY], 'overruling-unfit'],
      [['--void', '4', '--author', 'A. Rowan'], 'input-shape'],
      [BY, 'input-shape'],
      [['--void', '4', '--role', 'technician', ...BY], 'act-not-yours'],
      [['--fields', '0'], 'correction-unfit'],
    ];
    const answers = [];
    // One after the other: each takes the record's lock.
    for (const [args] of asked) answers.push(await run('correct', path, ...args, '--json'));
    const codes = answers.map(({ said }) => (JSON.parse(said) as { code: string }).code);
    expect(codes).toEqual(asked.map(([, code]) => code));
    expect(answers.map(({ exit }) => exit)).toEqual(asked.map(() => 3));
    const missing = await run('correct', none, '--void', '4', ...BY, '--json');
    expect(JSON.parse(missing.said)).toMatchObject({ code: 'file-not-readable' });
    expect(() => readFileSync(none)).toThrow(/ENOENT/);
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it('waits for no receiver: a record that is being written is refused', async () => {
    const lock = await lockRecord('test-record');
    const { exit, said } = await run('correct', path, '--void', '4', ...BY, '--json');
    await lock.release();
    expect(exit).toBe(3);
    expect(JSON.parse(said)).toMatchObject({ code: 'record-locked' });
  });
});
