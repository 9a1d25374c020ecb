import { expect, it } from 'vitest';
import { figureLine } from '#core/report/figure-line.ts';
import { resultOfSession } from '#core/session/result.ts';
import { aDay } from '#tests/core/session/a-day.ts';

it('draws every state twice, the line once, and no number that is none', () => {
  const result = resultOfSession(aDay({ stateDeg: 0.005, readingDeg: 0.003 }));
  const svg = figureLine(result);
  expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  expect(svg.match(/fill="#101418" stroke=/g)).toHaveLength(2 * result.points.length);
  expect(svg).toContain('Starboard');
  // The first, fourth and last state stand at no moment and are numbered together.
  expect(svg).toContain('>0, 4, 8<');
});

it('draws a day without a line', () => {
  expect(figureLine({ points: [], line: null })).not.toMatch(/NaN|Infinity/);
});
