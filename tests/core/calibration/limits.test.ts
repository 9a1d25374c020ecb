import { describe, expect, it } from 'vitest';
import { INCLINOMETER_LIMITS, limitsHeld } from '#core/calibration/limits.ts';
import { fitScale } from '#core/calibration/scale-fit.ts';

const RAD = Math.PI / 180;
const points = (bend: number) =>
  [1, 2].flatMap((run) =>
    (['up', 'down'] as const).flatMap((way) =>
      [-4, -2, 0, 2, 4].map((deg) => {
        const reference = Math.sin(deg * RAD);
        return { reference, indicated: reference + bend * deg * deg * RAD, way, run };
      }),
    ),
  );
const verdicts = (bend: number, one = points(bend)) =>
  Object.fromEntries(
    limitsHeld(
      fitScale(one, { setting: 1e-6, commonShare: 1e-4 }),
      8,
      INCLINOMETER_LIMITS,
      1 / RAD,
    ).map(({ figure, verdict }) => [figure, verdict]),
  );

describe('limits of a calibration', () => {
  it('hold a sound instrument within, and a bent one beyond', () => {
    expect(new Set(Object.values(verdicts(0)))).toEqual(new Set(['within']));
    expect(verdicts(0.002)).toMatchObject({ largestResidual: 'beyond', hysteresis: 'within' });
  });

  it('call a figure that was not shown not shown, never within', () => {
    const oneWay = points(0)
      .slice(0, 5)
      .concat([{ ...points(0)[1]!, run: 2, reference: 0.5 * RAD, indicated: 0.5 * RAD }]);
    expect(verdicts(0, oneWay)).toMatchObject({
      hysteresis: 'not-shown',
      repeatability: 'not-shown',
      zeroReturn: 'not-shown',
    });
  });
});
