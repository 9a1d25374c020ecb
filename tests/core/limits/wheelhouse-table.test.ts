import { expect, test } from 'vitest';
import { wheelhouseTable } from '#core/limits/wheelhouse-table.ts';
import { boxQuestion } from '#tests/core/stability/box-condition.ts';
import { GM_035 } from './gm-rule.ts';

const opening = (name: string, closing: 'weathertight' | 'unprotected') => ({
  name,
  closing,
  xM: 10,
  yM: 0,
  zM: 4,
});
const OPENINGS = [
  { opening: opening('door', 'weathertight'), openFrom: null },
  { opening: opening('hatch', 'weathertight'), openFrom: 'open-at-worst' as const },
  { opening: opening('vent', 'unprotected'), openFrom: 'weathertight' as const },
];

test('a condition is within by the upper end of its KG, the heading says what it rests on', () => {
  const of = (kgM: number, kgUncertaintyM: number) => ({
    ...boxQuestion({ kgM, kgUncertaintyM }),
    openings: OPENINGS,
  });
  // KM 2.75, GM 0.35: the limit is KG 2.40; the third is under it by less than 1.645 u.
  const { heading, rows } = wheelhouseTable([of(2.3, 0.02), of(2.45, 0), of(2.38, 0.02)], [GM_035]);
  expect(rows.map(({ within }) => within)).toEqual([true, false, false]);
  for (const { limitingKgM, governing } of rows) {
    expect(limitingKgM).toBeCloseTo(2.4, 4);
    expect(governing[0]!.clause).toBe('one');
  }
  expect(rows[0]!.upperKgM).toBeCloseTo(2.3 + 1.644854 * 0.02, 6);
  expect(heading).toMatchObject({
    takenAsShut: ['door'],
    openAtWorst: ['hatch'],
    openAtSea: [],
    neverShut: ['vent'],
  });
  expect(heading.notJudged).toContain('deck strength');
});

test('slack tanks are named and in the limit; an unknown uncertainty keeps a condition out', () => {
  const slack = boxQuestion({ massT: 178.5, fillings: [{ space: 'tank', share: 0.5 }] });
  const [row] = wheelhouseTable([slack], [GM_035]).rows;
  expect(row!.slackTanks).toEqual(['tank']);
  expect(row!.limitingKgM).toBeCloseTo(2.4 - 9 / 184.5, 4);
  const unknown = { ...slack, loaded: { ...slack.loaded, causes: null } };
  expect(wheelhouseTable([unknown], [GM_035]).rows[0]).toMatchObject({
    upperKgM: null,
    within: false,
  });
});
