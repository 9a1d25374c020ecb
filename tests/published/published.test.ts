import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { lineThroughOrigin, straightLine } from '#core/numerics/least-squares.ts';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import { stiffnessOfOneShift } from '#core/reduction/one-shift.ts';
import { reduceTest } from '#core/reduction/reduce-test.ts';
import { parseTestInput } from '#core/reduction/test-input.ts';

/**
 * Worked examples from outside the project: each file names its document and what it must give.
 * Agreement is to one unit of the last digit printed, or `within` where the file says why less.
 */
const published = z.strictObject({
  document: z.string().min(1),
  section: z.string().min(1),
  edition: z.string().min(1),
  provenance: z.string().min(1),
  kind: z.enum(['inclining-test', 'straight-line', 'line-through-origin', 'one-shift']),
  input: z.unknown(),
  expect: z
    .array(
      z.strictObject({ figure: z.string(), printed: z.string(), within: z.string().optional() }),
    )
    .min(1),
});
type Published = z.infer<typeof published>;

const columns = z.strictObject({ x: z.array(z.number()), y: z.array(z.number()) });
const oneShift = z.strictObject({
  mass: z.number(),
  distance: z.number(),
  heelDeg: z.number(),
  displacement: z.number(),
});

function worked({ kind, input }: Published): unknown {
  switch (kind) {
    case 'inclining-test': {
      const parsed = parseTestInput(JSON.stringify(input));
      expect(parsed.faults).toEqual([]);
      return reduceTest(parsed.test!);
    }
    case 'straight-line': {
      const { x, y } = columns.parse(input);
      return straightLine(x, y);
    }
    case 'line-through-origin': {
      const { x, y } = columns.parse(input);
      return lineThroughOrigin(x, y);
    }
    case 'one-shift': {
      const { mass, distance, heelDeg, displacement } = oneShift.parse(input);
      const tangent = Math.tan(radiansFromDegrees(heelDeg));
      return { gm: stiffnessOfOneShift(mass * distance, tangent) / displacement };
    }
  }
}

function at(result: unknown, path: string): unknown {
  return path.split('.').reduce<unknown>((value, key) => {
    if (typeof value !== 'object' || value === null) return undefined;
    return (value as Record<string, unknown>)[key];
  }, result);
}

/** One unit of the last digit of a printed number. */
function lastUnit(printed: string): number {
  const [digits, exponent] = printed.split('e');
  return 10 ** (Number(exponent ?? 0) - (digits?.split('.')[1]?.length ?? 0));
}

const folder = new URL('.', import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith('.json'));

describe.each(files)('%s', (file) => {
  const example = published.parse(JSON.parse(readFileSync(new URL(file, folder), 'utf8')));
  const result = worked(example);
  test.each(example.expect)('$figure is $printed', ({ figure, printed, within }) => {
    const found = at(result, figure);
    if (typeof found === 'string') {
      expect(found).toBe(printed);
      return;
    }
    const tolerance = within === undefined ? lastUnit(printed) : Number(within);
    expect(typeof found).toBe('number');
    expect(Math.abs((found as number) - Number(printed))).toBeLessThanOrEqual(tolerance);
  });
});

test('there are worked examples to run', () => {
  expect(files.length).toBeGreaterThanOrEqual(7);
});
