import { describe, expect, it } from 'vitest';
import { StateBlocks } from '#core/steadiness/state-blocks.ts';

class Open extends StateBlocks {
  begin(firstBlock: number, heelDeg: number[], used: boolean[]): void {
    this.beginBlocks(firstBlock);
    this.heelDeg = heelDeg;
    this.used = used;
    this.usedBlocks = used.filter(Boolean).length;
  }
  forget(count: number): void {
    this.dropBlocks(count);
  }
  count(fromS: number): void {
    this.takeIn(fromS);
  }
}

describe('blocks of a state', () => {
  it('counts what is used, and keeps its times when the oldest are forgotten', () => {
    const blocks = new Open();
    blocks.begin(100, [1, 2, Number.NaN, 4], [true, true, false, true]);
    expect(blocks.countedS).toBeCloseTo(1.2, 12);
    expect(blocks.window()).toEqual({ fromS: 40, toS: 41.6 });
    blocks.forget(1);
    expect(blocks.countedS).toBeCloseTo(0.8, 12);
    expect(blocks.window()!.fromS).toBeCloseTo(40.4, 12);
    expect(blocks.lastBlock()).toEqual({ block: 103, heelDeg: 4 });
    expect(blocks.recentRangeDeg()).toBe(1);
    expect(blocks.counted()!.heelDeg).toEqual([2, Number.NaN, 4]);
  });

  it('takes in again what has a value', () => {
    const blocks = new Open();
    blocks.begin(0, [1, 2, Number.NaN, 4], [false, false, false, true]);
    blocks.count(0.4);
    expect(blocks.counted()).toEqual({ fromS: 0.4, heelDeg: [2, Number.NaN, 4] });
    expect(blocks.countedS).toBeCloseTo(0.8, 12);
  });
});
