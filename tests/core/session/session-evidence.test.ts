import { expect, test } from 'vitest';
import { sessionEvidence } from '#core/session/session-evidence.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { entered, surveyOf } from '../../support/entries.ts';

const of = (rows: Parameters<typeof surveyOf>[0]) =>
  sessionEvidence({ ...aDay(), survey: surveyOf(rows) });

test('nothing is excluded that nobody looked at', () => {
  const evidence = of([]);
  expect(evidence.restraint).toBeUndefined();
  expect(evidence['full-width-liquid']).toBeUndefined();
  expect(evidence['common-mass']).toBe('weight certificates W-7');
});

test('a second person, slack lines and seen spaces are told with who it was', () => {
  const evidence = of([
    entered('weight', 'A', { massT: 0.5, by: 'B. Heron' }),
    entered('check', 'lines-slack', { holds: true, note: '' }),
    entered('check', 'clear-of-fenders', { holds: false, note: 'one touches aft' }),
    entered('space', 'bilge', { sounded: true, opened: true, by: 'B. Heron' }),
  ]);
  expect(evidence['common-mass']).toContain('1 weighed or read again by B. Heron');
  expect(evidence.restraint).toBe('lines slack, as entered by A. Rowan');
  expect(evidence['full-width-liquid']).toBe('sounded, opened and seen: bilge by B. Heron');
});

test('words alone exclude no liquid, and stand before what the record says of all else', () => {
  const words = { 'full-width-liquid': 'dry', 'common-angle': 'a spirit level beside' };
  const evidence = of([entered('choices', 'choices', { evidence: words })]);
  expect(evidence['full-width-liquid']).toMatch(/^not excluded/);
  expect(evidence['common-angle']).toBe('a spirit level beside');
});
