import { describe, expect, it } from 'vitest';
import { sixPositions } from '#core/calibration/six-positions.ts';

describe('six positions', () => {
  it('give offset and gain of each axis', () => {
    const [x, y] = sixPositions([
      { axis: 'x', upG: 1.02, downG: -0.98 },
      { axis: 'y', upG: 0.995, downG: -1.005 },
    ]);
    expect(x!.offsetG).toBeCloseTo(0.02, 12);
    expect(x!.gain).toBeCloseTo(1, 12);
    expect(y!.offsetG).toBeCloseTo(-0.005, 12);
  });

  it('refuse an axis that was not turned over', () => {
    expect(() => sixPositions([{ axis: 'z', upG: 1, downG: 0.99 }])).toThrow(/input-range/);
  });
});
