import { expect, test } from 'vitest';
import type { Certificate, Mounting } from '#core/sample/certificate.ts';
import { shownNow, shownOf, whyNotYet } from '../../../ui/calibrate/shown.ts';

const mounting: Mounting = {
  instrument: 'fore',
  label: 'Fore',
  kind: 'inclinometer',
  sign: -1,
  spanM: null,
  heightOverRollAxisM: 0,
  settlingS: 1,
};
const tube: Mounting = { ...mounting, kind: 'water-tube', sign: 1, spanM: 8 };

test('it is what the chip itself says: sign and certificate are taken off again', () => {
  expect(shownOf(2, { mounting, certificate: null }, 'level')).toBeCloseTo(-2, 12);
  const certificate = { instrument: 'fore', zero: 0.001, scale: 1.02 } as Certificate;
  const sine = (Math.sin((-2 * Math.PI) / 180) - 0.001) / 1.02;
  expect(shownOf(2, { mounting, certificate }, 'level')).toBeCloseTo(
    (Math.asin(sine) * 180) / Math.PI,
    12,
  );
  expect(shownOf(null, { mounting, certificate }, 'level')).toBeNull();
});

test('of a tube it is millimetres, by tangent along the legs and by sine at their feet', () => {
  const of = { mounting: tube, certificate: null };
  expect(shownOf(4, of, 'level')).toBeCloseTo(8000 * Math.tan((4 * Math.PI) / 180), 9);
  expect(shownOf(4, of, 'pressure')).toBeCloseTo(8000 * Math.sin((4 * Math.PI) / 180), 9);
});

test('it can be taken after five seconds at rest, and says what it waits for', () => {
  const of = { mounting, certificate: null };
  const still = Array.from({ length: 60 }, () => 1);
  expect(whyNotYet(shownNow(still, of, 'level'), false)).toBeNull();
  expect(whyNotYet(shownNow(still, of, 'level'), true)).toBe('the link is lost');
  expect(whyNotYet(shownNow(still.slice(0, 30), of, 'level'), false)).toBe('2 s more');
  expect(whyNotYet(shownNow([], of, 'level'), false)).toBe('nothing comes from it');
  const swaying = still.map((one, k) => one + 0.1 * Math.sin(k / 10));
  expect(whyNotYet(shownNow(swaying, of, 'level'), false)).toBe('not at rest');
});
