import { describe, expect, it } from 'vitest';
import { tOf95 } from '#core/steadiness/half-width.ts';

describe('half width of a 95 % interval', () => {
  it("is Student's t of any table, asked once or again", () => {
    for (let n = 0; n < 3; n++) {
      expect(tOf95(1)).toBeCloseTo(12.706, 3);
      expect(tOf95(9)).toBeCloseTo(2.262, 3);
    }
    for (let dof = 1; dof < 200; dof += 0.5) expect(tOf95(dof)).toBeGreaterThan(1.96);
    expect(tOf95(9)).toBeCloseTo(2.262, 3);
  });
});
