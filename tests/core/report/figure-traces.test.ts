import { expect, it } from 'vitest';
import { figureTraces, tracesSize } from '#core/report/figure-traces.ts';

const lane = (heelDeg: (number | null)[]) => ({
  ...{ state: 0, instrument: 'fore', label: 'Fore', heelDeg },
  atS: heelDeg.map((_, k) => k / 10),
});

it('leaves a gap where samples are missing', () => {
  const path = (heelDeg: (number | null)[]) =>
    figureTraces([lane(heelDeg)])
      .match(/d="(M96[^"]*)"/g)
      ?.at(-1) ?? '';
  expect(path([1, 1.1, 1.2, 1.1]).match(/M/g)).toHaveLength(1);
  expect(path([1, 1.1, null, 1.1]).match(/M/g)).toHaveLength(2);
});

it('keeps the largest of many samples, and draws flat, empty and long ones', () => {
  const long = Array.from({ length: 50_000 }, (_, k) => (k === 31_234 ? 5 : Math.sin(k / 40)));
  const svg = figureTraces([lane(long), lane([1, 1, 1])]);
  expect(svg).not.toMatch(/NaN|Infinity/);
  expect(svg.length).toBeLessThan(60_000);
  const heights = [...svg.matchAll(/L[\d.]+ ([\d.]+)/g)].map(([, y]) => Number(y));
  // The one large sample stands at the top of its lane.
  expect(Math.min(...heights)).toBeLessThan(6);
  expect(figureTraces([lane([])])).not.toMatch(/NaN|Infinity/);
  expect(tracesSize(6).height).toBeGreaterThan(tracesSize(3).height);
});
