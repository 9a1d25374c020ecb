import { expect, test } from 'vitest';
import { certificateRefusal } from '#core/sample/certificate-refusal.ts';
import { aDay } from '#tests/core/session/a-day.ts';

const [certificate] = aDay({ states: 1 }).certificates;

test('a good certificate is used, none or a vague one says why not', () => {
  expect(certificateRefusal(certificate)).toBeNull();
  expect(certificateRefusal(undefined)).toBe('no calibration certificate');
  expect(certificateRefusal({ ...certificate!, scaleUncertainty: 0.02 })).toContain('2 %');
});
