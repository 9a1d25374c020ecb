import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterAll, afterEach, expect, it, vi } from 'vitest';
import { registerHydrostatics } from '#receiver/commands/hydrostatics.ts';

const folder = mkdtempSync(join(tmpdir(), 'bad-hulls-'));
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => {
  vi.restoreAllMocks();
  process.exitCode = undefined;
});

type Section = readonly (readonly [zM: number | string, halfBreadthM: number])[];
const BOX: Section = [
  [0, 0],
  [0, 3],
  [3, 3],
];

/** Five stations of one section, the second (rows 5 to 7 of a box) another one where given. */
function table(section: Section, { xs = [0, 5, 10, 15, 20], second = section } = {}): string {
  const rows = xs.flatMap((xM, k) =>
    (k === 1 ? second : section).map(([zM, halfBreadthM]) => `${xM},${zM},${halfBreadthM}`),
  );
  return ['xM,zM,halfBreadthM', ...rows].join('\n');
}

const times = (factor: number): Section => BOX.map(([z, y]) => [factor * Number(z), factor * y]);

const BAD: readonly (readonly [what: string, csv: string, code: string, place: string])[] = [
  [
    'points whose lines cross',
    table(BOX, {
      second: [
        [0, 0],
        [1, 2],
        [0.6, 2.2],
        [0.7, 1.2],
        [2, 1.4],
      ],
    }),
    'hull-crossing',
    'row 8, column halfBreadthM',
  ],
  [
    'points that changed places',
    table(BOX, {
      second: [
        [0, 0],
        [2, 2],
        [1, 1],
        [3, 3],
      ],
    }),
    'hull-order',
    'row 7, column zM',
  ],
  ['four stations', table(BOX, { xs: [0, 5, 10, 20] }), 'hull-few-stations', '4 stations'],
  [
    'no number',
    table(BOX, {
      second: [
        [0, 0],
        ['NaN', 3],
        [3, 3],
      ],
    }),
    'hull-number',
    'row 6, column zM',
  ],
  [
    'a table in millimetres',
    table(times(1000), { xs: [0, 5000, 10_000, 15_000, 20_000] }),
    'hull-millimetres',
    'row 3, column halfBreadthM',
  ],
  [
    'heights in millimetres',
    table([
      [0, 0],
      [0, 3],
      [3000, 3],
    ]),
    'hull-millimetres',
    'row 4, column zM',
  ],
  [
    'one half-breadth in millimetres',
    table(BOX, {
      second: [
        [0, 0],
        [0, 300],
        [3, 3],
      ],
    }),
    'hull-millimetres',
    'row 6, column halfBreadthM',
  ],
  [
    'a station in millimetres',
    table(BOX, { xs: [0, 5, 10, 15, 20_000] }),
    'hull-millimetres',
    'row 14, column xM',
  ],
  [
    'the other side',
    table(BOX, {
      second: [
        [0, 0],
        [0, -3],
        [3, 3],
      ],
    }),
    'hull-asymmetric',
    'row 6, column halfBreadthM',
  ],
  [
    'a twin hull',
    table(BOX, {
      second: [
        [1.5, 1.2],
        [0.2, 1.5],
        [0.2, 2.2],
        [3, 2.6],
      ],
    }),
    'hull-twin',
    'row 5, column halfBreadthM',
  ],
  [
    'a tunnel',
    table(BOX, {
      second: [
        [0.5, 0],
        [0.1, 0.6],
        [0.4, 2],
        [3, 3],
      ],
    }),
    'hull-tunnel',
    'row 6, column halfBreadthM',
  ],
];

it.each(BAD)('refuses %s with its place', async (what, csv, code, place) => {
  const file = join(folder, `${what.replaceAll(' ', '-')}.csv`);
  writeFileSync(file, csv);
  const said: string[] = [];
  vi.spyOn(console, 'error').mockImplementation((text: string) => void said.push(text));
  const program = new Command('heelwright').exitOverride();
  registerHydrostatics(program);
  await program.parseAsync(['hydrostatics', file, '--draught', '1.5'], { from: 'user' });
  expect(process.exitCode).toBe(3);
  expect(said.join('\n')).toContain(code);
  expect(said.join('\n')).toContain(place);
});
