import { expect, it } from 'vitest';
import {
  chanceWords,
  dayWords,
  degreesPair,
  metres,
  percent,
  secondsWords,
  stated,
  valueWords,
  wallWords,
  writtenWords,
} from '#core/report/report-words.ts';

it('prints times in UTC and who wrote a line', () => {
  const wall = '2026-05-04T09:00:12.345Z';
  expect(wallWords(wall)).toBe('2026-05-04 09:00:12 UTC');
  expect(dayWords(wall)).toBe('2026-05-04');
  expect(writtenWords({ line: 7, wall, receiverS: 1, author: 'A. Rowan', role: 'architect' })).toBe(
    'A. Rowan (architect), 2026-05-04 09:00:12 UTC, line 7',
  );
});

it('widens a standard error by Student’s t: 2.776 for 4 degrees of freedom (any table)', () => {
  expect(degreesPair(1.5, 0.01, 4)).toBe('1.500 ± 0.028');
});

it('writes figures as they were stated', () => {
  expect(stated(46.82, 0.06, 't')).toBe('46.82 t, standard uncertainty 0.06 t');
  expect(stated(0.93, null, 'm')).toBe('0.93 m, uncertainty not stated');
  expect(
    metres({ value: 0.9, standardUncertainty: 0.01, degreesOfFreedom: null, halfWidth95: 0.0196 }),
  ).toBe('0.900 ± 0.020 m');
  expect(percent(0.333)).toBe('33 %');
  expect(chanceWords(0.00001)).toBe('under 0.0001');
  expect(chanceWords(0.123)).toBe('0.12');
  expect(valueWords(null)).toBe('none');
  expect(valueWords([1, 2])).toBe('1, 2');
  expect(secondsWords(12.34)).toBe('12.3');
});
