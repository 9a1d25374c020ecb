import { expect, test } from 'vitest';
import { DAY_CHECKS } from '#core/record/entry-line.ts';
import { checksOpen } from '#core/session/checks-open.ts';
import { entered, surveyOf } from '../../support/entries.ts';

test('a check is open until it is answered with yes, on its own occasion', () => {
  const survey = surveyOf([
    entered('check', 'lines-slack', { holds: true, note: '' }),
    entered('check', 'depth', { holds: false, note: 'falling' }),
    entered('check', 'gangway-off', { holds: true, note: '' }, { occasion: 'closing' }),
  ]);
  expect(checksOpen({ survey }, 'before')).toBe(DAY_CHECKS.length - 1);
  expect(checksOpen({ survey }, 'closing')).toBe(DAY_CHECKS.length - 1);
});
