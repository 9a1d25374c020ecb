import { expect, test } from 'vitest';
import { remedyWords } from '#core/report/remedy-words.ts';

test('each remedy is a thing to do, with how much of it', () => {
  expect(remedyWords({ kind: 'shut', what: 'hold hatch' })).toBe('keep hold hatch shut');
  expect(remedyWords({ kind: 'fill', what: 'fuel', massT: 0.4 })).toMatch(/press up fuel, 0\.40 t/);
  expect(remedyWords({ kind: 'empty', what: 'fuel', massT: 0.4 })).toMatch(/pump out fuel/);
  expect(remedyWords({ kind: 'lower', what: 'winch', massT: 0.6, byM: 1.25 })).toMatch(/1\.25 m/);
  expect(remedyWords({ kind: 'leave-ashore', what: 'bags', massT: 0.3 })).toMatch(/ashore$/);
});
