import { expect, test } from 'vitest';
import { newDraft } from '../../../ui/calibrate/kept-draft.ts';
import { stepsOf } from '../../../ui/calibrate/steps.ts';

test('each kind has its own steps, from the standard to the certificate', () => {
  const keys = (kind: 'inclinometer' | 'water-tube') =>
    stepsOf(newDraft('x', kind, '2026-11-25')).map(({ key }) => key);
  expect(keys('inclinometer')).toEqual([
    ...['standard', 'reversal', 'points', 'positions', 'temperature', 'alignment', 'finish'],
  ]);
  expect(keys('water-tube')).toEqual(['standard', 'points', 'time', 'temperature', 'finish']);
});

test('a step says what was taken in it', () => {
  const draft = newDraft('x', 'inclinometer', '2026-11-25');
  draft.reversal.push({ firstDeg: 0, turnedDeg: 0 });
  expect(stepsOf(draft).map(({ done }) => done)).toEqual(['', '1 taken', '', '', '', '', '']);
});
