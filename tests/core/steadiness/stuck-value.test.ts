import { describe, expect, it } from 'vitest';
import { StuckValue } from '#core/steadiness/stuck-value.ts';

describe('stuck value', () => {
  it('is stuck since it first came, once repeated for 2.5 s', () => {
    const stuck = new StuckValue();
    stuck.push(9.9, 1);
    const since = Array.from({ length: 30 }, (_, k) => stuck.push(10 + k / 10, 1.25));
    expect(since.slice(0, 25).every((one) => one === null)).toBe(true);
    expect(since[25]).toBe(10);
    expect(since.at(-1)).toBe(10);
    expect(stuck.push(13, 1.2501)).toBeNull();
  });

  it('takes the least movement for life, rounding for none', () => {
    const alive = new StuckValue();
    const rounded = new StuckValue();
    let last: number | null = null;
    for (let k = 0; k < 100; k++) {
      expect(alive.push(k / 10, 1 + 1e-6 * (k % 2))).toBeNull();
      last = rounded.push(k / 10, 1.25 + 1e-13 * (k % 3));
    }
    expect(last).toBe(0);
  });

  it('begins anew after a missing value', () => {
    const stuck = new StuckValue();
    for (let k = 0; k < 24; k++) stuck.push(k / 10, 1);
    stuck.push(2.4, null);
    for (let k = 25; k < 49; k++) expect(stuck.push(k / 10, 1)).toBeNull();
  });
});
