import { expect, it } from 'vitest';
import { certificateResiduals } from '#core/calibration/certificate-residuals.ts';

it('leaves nothing over on its own line, and what was added beside it', () => {
  const points: [number, number][] = [
    [0, 0.5],
    [1, 2.5],
    [2, 4.6],
  ];
  const left = certificateResiduals({ points, zero: 0.5, scale: 2 }).map(
    ({ residual }) => residual,
  );
  expect(left[0]).toBe(0);
  expect(left[1]).toBe(0);
  expect(left[2]).toBeCloseTo(0.1, 12);
});
