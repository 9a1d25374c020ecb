import { expect, test } from 'vitest';
import type { HistoryInput } from '#core/stability/history-input.ts';
import { newTestDue } from '#core/stability/new-test-due.ts';
import { HISTORY, tested } from './a-history.ts';

const LENGTH_M = 15;
const answers = (history: HistoryInput, clause: RegExp, words: RegExp, lengthM = LENGTH_M) =>
  newTestDue(history, lengthM)
    .filter((one) => clause.test(one.clause) && words.test(one.words))
    .map(({ answer }) => answer);
const added = (massT: number, xM = 6.4): HistoryInput => ({
  ...HISTORY,
  tests: [tested('2016-05-04')],
  changes: [{ what: 'winch', massT, from: null, to: { xM, yM: 0, zM: 3 } }],
});

// Resolution A.749(18) 7.1.3: 2 % of displacement, 1 % of length; 40 t and 15 m here.
test('changes of over 2 % of the displacement, or 1 % of the length in LCG, ask for a test', () => {
  expect(answers(added(0.79), /A\.749/, /displacement expected/)).toEqual(['not-due']);
  expect(answers(added(0.81), /A\.749/, /displacement expected/)).toEqual(['due']);
  // 0.5 t at x brings the LCG of 40.5 t by 0.5 (x - 6.4) / 40.5: 0.15 m from x 18.55 m on.
  expect(answers(added(0.5, 18.5), /A\.749/, /LCG expected/)).toEqual(['not-due']);
  expect(answers(added(0.5, 18.6), /A\.749/, /LCG expected/)).toEqual(['due']);
});

test('what a lightweight survey found is held to both tests’ own uncertainty', () => {
  const found = (moreT: number) =>
    answers(
      {
        ...HISTORY,
        tests: [tested('2006-05-04'), { ...tested('2016-05-04', moreT), kind: 'lightship-survey' }],
      },
      /A\.749/,
      /found another displacement/,
    );
  expect(found(0.9)).toEqual(['due']);
  expect(found(0.5)).toEqual(['not-due-within-uncertainty']);
  expect(found(0.1)).toEqual(['not-due']);
  expect(answers(HISTORY, /A\.749/, /found another/)).toEqual([]);
});

// 46 CFR 144.315: the aggregate counts every change without its sign.
test('changes that cancel still add up', () => {
  const swap: HistoryInput = {
    ...HISTORY,
    changes: [
      { what: 'old', massT: 0.5, from: { xM: 6.4, yM: 0, zM: 3 }, to: null },
      { what: 'new', massT: 0.5, from: null, to: { xM: 6.4, yM: 0, zM: 3 } },
    ],
  };
  expect(answers(swap, /144\.315/, /added up/)).toEqual(['due']);
  expect(answers(swap, /A\.749/, /displacement expected/)).toEqual(['not-due']);
});

test('of small vessels two tonnes may be more than two per cent', () => {
  expect(answers(added(1.9), /SOLAS/, /calculated/)).toEqual(['not-due']);
  expect(answers(added(2.1), /SOLAS/, /calculated/)).toEqual(['due']);
});

test('years count for whom the text is for; what is from memory decides nothing', () => {
  expect(answers(HISTORY, /United Kingdom/, /recommended/)).toEqual(['due']);
  expect(answers(HISTORY, /United Kingdom/, /recommended/, 16.4)).toEqual([]);
  expect(answers({ ...HISTORY, carriesPassengers: true }, /A\.749/, /passenger/)).toEqual(['due']);
  expect(answers(HISTORY, /Torremolinos/, /years/)).toEqual(['from-memory']);
});
