import { expect, test } from 'vitest';
import { signConfirmed, signRefusal } from '#core/sample/sign-confirmed.ts';

const told = { instrument: 'fore', beforeDeg: 0.1, pushedDeg: 0.4, seal: '117' };

test('starboard pushed down must show as starboard down, by more than nothing', () => {
  expect(signRefusal(told)).toBeNull();
  expect(signRefusal({ ...told, pushedDeg: -0.2 })?.code).toBe('sign-wrong');
  expect(signRefusal({ ...told, pushedDeg: -0.2 })?.report.found).toMatch(/to port/);
  expect(signRefusal({ ...told, pushedDeg: 0.11 })?.code).toBe('sign-wrong');
});

test('what is no angle, or an empty seal, is refused', () => {
  expect(signConfirmed.safeParse(told).success).toBe(true);
  expect(signConfirmed.safeParse({ ...told, pushedDeg: 91 }).success).toBe(false);
  expect(signConfirmed.safeParse({ ...told, seal: ' ' }).success).toBe(false);
});
