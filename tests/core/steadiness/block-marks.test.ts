import { describe, expect, it } from 'vitest';
import {
  blocksThatCount,
  blocksToAnswerFor,
  halfRangeDeg,
  windowOf,
} from '#core/steadiness/block-marks.ts';
import { BLOCK_S } from '#core/steadiness/roll-model.ts';

const blocks = {
  firstBlock: 10,
  heelDeg: [0, 1, Number.NaN, 3, 4, 5],
  used: [true, false, false, false, true, false],
};
const at = (block: number) => block * BLOCK_S;

describe('blocks and which of them count', () => {
  it('span from the first that counts to the end of the last', () => {
    expect(windowOf(blocks)).toEqual({ fromS: at(10), toS: at(15) });
    expect(windowOf({ ...blocks, used: blocks.used.map(() => false) })).toBeNull();
    expect(Array.from(blocksThatCount(blocks).heelDeg, Number.isNaN)).toEqual([
      false,
      true,
      true,
      true,
      false,
      true,
    ]);
  });

  it('can be answered for where they have a value, do not count and nothing else stands against them', () => {
    const all = { fromS: at(10), toS: at(16) };
    expect(blocksToAnswerFor(blocks, 0, all, [])).toEqual([1, 3, 5]);
    expect(blocksToAnswerFor(blocks, at(12), all, [])).toEqual([3, 5]);
    expect(blocksToAnswerFor(blocks, 0, { fromS: at(13.5), toS: at(15) }, [])).toEqual([3]);
    expect(blocksToAnswerFor(blocks, 0, all, [{ fromS: at(15.2), toS: Infinity }])).toEqual([1, 3]);
  });

  it('range over what has a value', () => {
    expect(halfRangeDeg(blocks.heelDeg)).toBe(2.5);
    expect(halfRangeDeg([Number.NaN])).toBe(0);
  });
});
