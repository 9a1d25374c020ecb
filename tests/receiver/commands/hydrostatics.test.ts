import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterAll, afterEach, describe, expect, it, vi } from 'vitest';
import { hydrostaticsOutput } from '#core/hull/hydrostatics-output.ts';
import { registerHydrostatics } from '#receiver/commands/hydrostatics.ts';

const folder = mkdtempSync(join(tmpdir(), 'hydrostatics-'));
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => {
  vi.restoreAllMocks();
  process.exitCode = undefined;
});
const box = join(folder, 'box.csv');
writeFileSync(
  box,
  `xM,zM,halfBreadthM\n${[0, 5, 10, 15, 20].map((x) => `${x},0,0\n${x},0,3\n${x},3,3\n`).join('')}`,
);
const marram = new URL('../../../device/emulated/marram.json', import.meta.url).pathname;

async function run(...words: string[]) {
  const said: string[] = [];
  const complained: string[] = [];
  vi.spyOn(console, 'log').mockImplementation((text: string) => void said.push(text));
  vi.spyOn(console, 'error').mockImplementation((text: string) => void complained.push(text));
  const program = new Command('heelwright').exitOverride();
  registerHydrostatics(program);
  await program.parseAsync(['hydrostatics', ...words], { from: 'user' });
  const exit = Number(process.exitCode ?? 0);
  return { said: said.join('\n'), complained: complained.join('\n'), exit };
}

describe('hydrostatics HULL', () => {
  it('answers as JSON in the form of its schema: a box in closed form', async () => {
    const { said, exit } = await run(
      box,
      '--draught',
      '1.5',
      '--kg',
      '2.2',
      '--heels',
      '0,10',
      '--json',
    );
    expect(exit).toBe(0);
    const answer = hydrostaticsOutput.parse(JSON.parse(said));
    expect(answer.displacementT).toBeCloseTo(184.5, 9);
    expect(answer.kmTransverseM).toBeCloseTo(2.75, 9);
    expect(answer.levers.displacements[0]!.points[1]!.gzM).toBeCloseTo(0.100905429, 8);
  });

  it('takes trim by two draughts or by one and the trim, heel and density', async () => {
    const one = await run(
      box,
      '--draught',
      '1.5',
      '--trim',
      '0.2',
      '--density',
      '1000',
      '--heel',
      '5',
      '--json',
    );
    const two = await run(
      box,
      '--draught-aft',
      '1.6',
      '--draught-forward',
      '1.4',
      '--density',
      '1000',
      '--heel',
      '5',
      '--json',
    );
    expect(two.said).toBe(one.said);
    const answer = hydrostaticsOutput.parse(JSON.parse(one.said));
    expect(answer.trimM).toBeCloseTo(0.2, 12);
    expect(answer.displacementT).toBeCloseTo(180, 1);
    expect(answer.tcbM).toBeGreaterThan(0);
    expect(answer.metacentreMovementM).toBeNull();
  });

  it('says it in words of the trade, Marram with her openings', async () => {
    const { said } = await run(
      marram,
      '--draught',
      '1.4',
      '--trim',
      '0.11',
      '--kg',
      '2.26',
      '--levers',
      '45,47',
      '--fixed-trim',
      '--port',
    );
    expect(said).toContain('moulded, shell 6.0 mm laid on');
    expect(said).toContain('KM transverse / longitudinal');
    expect(said).toContain('Levers at 47.000 t, trim held');
    expect(said).toContain('wheelhouse door (weathertight) under water');
  });

  it('ends with 2 where the question is not one', async () => {
    for (const words of [
      [box],
      [box, '--draught', '1.5', '--draught-aft', '1'],
      [box, '--draught-aft', '1.5'],
      [box, '--draught', 'deep'],
      [box, '--draught', '1.5', '--heel', '90'],
      [box, '--draught', '1.5', '--density', '1.025'],
      [box, '--draught', '1.5', '--heels', '0,-5'],
      [box, '--draught', '1.5', '--levers', '40,'],
      [box, '--draught-aft', '1.5', '--draught-forward', '1.4', '--trim', '0.1'],
    ]) {
      expect((await run(...words)).exit, words.join(' ')).toBe(2);
    }
  });

  it('ends with 3 and a code where the hull or the waterline is refused', async () => {
    const bad = join(folder, 'bad.csv');
    writeFileSync(bad, 'xM,zM,halfBreadthM\n0,0,NaN\n');
    const { complained, exit } = await run(bad, '--draught', '1', '--json');
    expect(exit).toBe(3);
    expect(JSON.parse(complained)).toMatchObject({
      code: 'hull-number',
      where: `${bad}: row 2, column halfBreadthM`,
    });
    expect((await run(box, '--draught', '7')).exit).toBe(3);
    expect((await run(box, '--draught', '1.5', '--levers', '900')).complained).toContain(
      'hull-sinks',
    );
  });
});
