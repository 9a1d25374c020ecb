import { expect, it } from 'vitest';
import { partHandCheck } from '#core/report/part-hand-check.ts';
import { handCheck } from '#core/session/hand-check.ts';
import { resultOfSession } from '#core/session/result.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { textsOf } from '#tests/support/reported-day.ts';

/** A pocket calculator: it knows the printed page and nothing else. */
function gmByHand(texts: readonly string[]): number {
  const number = (text: string) => Number(text.replace('\u2212', '-'));
  const first = texts.indexOf('0');
  const rows: [number, number][] = [];
  for (let k = first; !texts[k]!.startsWith('Sum of'); k += 5)
    rows.push([number(texts[k + 1]!), number(texts[k + 2]!)]);
  const sum = (of: (row: [number, number]) => number) =>
    rows.reduce((all, row) => all + of(row), 0);
  const n = rows.length;
  const slope =
    (n * sum(([m, t]) => m * t) - sum(([m]) => m) * sum(([, t]) => t)) /
    (n * sum(([m]) => m * m) - sum(([m]) => m) ** 2);
  const displacement = number(/^[\d.]+/.exec(texts[texts.indexOf('Displacement Δ') + 1]!)![0]);
  return 1 / (displacement * slope);
}

it.each([1, 2, 3])('gives the classical GM from the printed page alone, seed %i', (seed) => {
  const day = aDay({ stateDeg: 0.01, readingDeg: 0.004, seed });
  const texts = textsOf(partHandCheck(handCheck(day)));
  const classical = resultOfSession(day).classical!.gmFluidM.value;
  // Seven decimals of a tangent of 0.06 leave a few hundredths of a millimetre.
  expect(Math.abs(gmByHand(texts) - classical)).toBeLessThan(0.0001);
  expect(texts).toContain(`${classical.toFixed(5)} m`);
});

it('prints sums that are those of its columns', () => {
  const texts = textsOf(partHandCheck(handCheck(aDay({ stateDeg: 0.01 }))));
  const at = texts.indexOf('Sum of 9');
  const number = (text: string) => Number(text.replace('\u2212', '-'));
  const first = texts.indexOf('0');
  for (const column of [1, 2, 3, 4]) {
    let all = 0;
    for (let k = first; k < at; k += 5) all += number(texts[k + column]!);
    expect(all).toBeCloseTo(number(texts[at + column]!), column === 2 || column === 4 ? 5 : 3);
  }
});

it('is one page: more states than fit are said, and no line is', () => {
  const check = handCheck(aDay())!;
  const many = { ...check, rows: Array.from({ length: 60 }, () => check.rows[0]!) };
  expect(textsOf(partHandCheck(many)).join(' ')).toContain('60 states do not fit');
  expect(textsOf(partHandCheck(null)).join(' ')).toContain('no line');
});
