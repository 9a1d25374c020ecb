import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Calibration } from '#core/calibration/calibration.ts';
import type { CalibrationInput } from '#core/calibration/calibration-input.ts';
import { certificate } from '#core/sample/certificate.ts';
import { registerCalibrate } from '#receiver/commands/calibrate.ts';

const FILLED = new URL('../../../hardware/calibration/fore-filled.json', import.meta.url);

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'calibrate-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  process.exitCode = undefined;
  vi.restoreAllMocks();
});

async function run(input: unknown, ...options: string[]) {
  process.exitCode = undefined;
  const out = vi.spyOn(console, 'log').mockImplementation(() => undefined);
  const err = vi.spyOn(console, 'error').mockImplementation(() => undefined);
  const path = join(folder, 'calibration.json');
  writeFileSync(path, JSON.stringify(input));
  const program = new Command();
  registerCalibrate(program);
  await program.parseAsync(['calibrate', path, ...options], { from: 'user' });
  const ran = {
    out: out.mock.calls.flat().join('\n'),
    err: err.mock.calls.flat().join('\n'),
    exit: process.exitCode ?? 0,
  };
  vi.restoreAllMocks();
  return ran;
}

const filled = () =>
  JSON.parse(readFileSync(FILLED, 'utf8')) as Extract<CalibrationInput, { kind: 'inclinometer' }>;

describe('heelwright calibrate', () => {
  it('makes a certificate of the filled sheet, all within its limits', async () => {
    const file = join(folder, 'fore.certificate.json');
    const { out, exit } = await run(filled(), '--json', '--certificate', file);
    expect(exit).toBe(0);
    const answer = JSON.parse(out) as Calibration;
    const written = certificate.parse(JSON.parse(readFileSync(file, 'utf8')));
    expect(written).toEqual(answer.certificate);
    // The sheet was drawn with a scale of 1.0061 and noise of 2e-5 in sine.
    expect(Math.abs(written.scale - 1.0061)).toBeLessThan(3 * written.scaleUncertainty);
    expect(written.standard).toEqual({ number: 'SB-500-1', commonShare: 1e-4 });
    expect(written.item?.seal).toBe('S-0042');
    expect(answer.limits.every(({ verdict }) => verdict === 'within')).toBe(true);
  });

  it('says when the base stands askew, and what six positions show', async () => {
    const { out } = await run({
      ...filled(),
      alignment: { portMm: 100, starboardMm: 110, apartMm: 200, uncertaintyMm: 0.5 },
      sixPositions: [{ axis: 'y', upG: 1.002, downG: -0.998 }],
    });
    expect(out).toMatch(/2\.86 degrees off the transverse.*set the base again/);
    expect(out).toMatch(/axis y: offset 0\.0020 g, gain 1\.0000/);
  });

  it('never writes over a certificate that stands', async () => {
    const file = join(folder, 'fore.certificate.json');
    writeFileSync(file, 'stands');
    const { err, exit } = await run(filled(), '--certificate', file);
    expect(exit).toBe(3);
    expect(err).toMatch(/file-not-writable/);
    expect(readFileSync(file, 'utf8')).toBe('stands');
  });

  it('leaves with 4, and says which limit, when one is not held or not shown', async () => {
    const input = filled();
    const { out, exit } = await run({
      ...input,
      points: input.points.filter(({ way, run: one }) => way === 'up' && one === 1),
    });
    expect(exit).toBe(4);
    expect(out).toMatch(/up against down +- .*not shown/);
  });

  it('refuses what has no shape, too few points, and a height beyond the bar', async () => {
    const input = filled();
    expect((await run({ ...input, kind: 'spirit-level' })).exit).toBe(3);
    const few = await run({ ...input, points: input.points.slice(0, 4) });
    expect(few.err).toMatch(/input-too-few/);
    const beyond = { ...input.points[0]!, heightMm: 600 };
    const high = await run({ ...input, points: [beyond, ...input.points] });
    expect(high.err).toMatch(/input-range/);
    expect(existsSync(join(folder, 'certificate.json'))).toBe(false);
  });

  it('calibrates a water tube with its time constant', async () => {
    const points = [1, 2].flatMap((one) =>
      (['up', 'down'] as const).flatMap((way) =>
        [-200, -100, -50, 0, 50, 100, 200].map((differenceMm) => ({
          differenceMm,
          indicatedMm: differenceMm / 1.004 + 0.3,
          way,
          run: one,
        })),
      ),
    );
    const { item, number, madeBy, place, date, temperatureC } = filled();
    const { out, exit } = await run({
      ...{ kind: 'water-tube', item, number, madeBy, place, date, temperatureC, points },
      standard: {
        ...{ kind: 'gauge-blocks', number: 'GB-1' },
        ...{ settingUncertaintyMm: 0.02, commonUncertaintyShare: 1e-4 },
      },
      step: Array.from({ length: 60 }, (_, k) => ({
        timeS: k / 2,
        indicatedMm: 100 * (1 - Math.exp(-k / 2 / 4)) + (k % 2 === 0 ? 0.1 : -0.1),
      })),
    });
    expect(exit).toBe(0);
    expect(out).toMatch(/scale 1\.004000/);
    expect(out).toMatch(/time constant 4\.0 s/);
  });
});
