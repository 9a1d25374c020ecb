import { expect, it } from 'vitest';
import { safetyWords } from '#core/report/safety-words.ts';

it('says when to stop, with what was seen', () => {
  expect(safetyWords({ code: 'zero-not-returned', stop: true, leftDeg: 0.412 })).toBe(
    'Stop: weight back, people off. The zero does not return: 0.41 deg are left.',
  );
  expect(
    safetyWords({
      code: 'gm-too-small',
      stop: true,
      gmM: 0.12,
      halfWidth95M: 0.02,
      leastGmM: 0.15,
    }),
  ).toContain('GM 0.120 ± 0.020 m is under 0.15 m');
  expect(safetyWords({ code: 'gm-over-three-kg', stop: false, gmM: 3.1, kgM: 1 })).toContain(
    'GM 3.1 m is over three times KG 1 m',
  );
});
