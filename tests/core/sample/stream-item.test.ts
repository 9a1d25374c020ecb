import { describe, expect, it } from 'vitest';
import { sampleBlock, streamId, streamItem } from '#core/sample/stream-item.ts';

const block = {
  type: 'samples',
  stream: 'station-1/board-1/3',
  number: 4,
  v: 1,
  firstSequence: 200,
  firstBoardUs: 4_000_000,
  stepUs: [0, 20_000, 20_000],
  columns: [
    [1163, 1164, null],
    [-3, -4, -3],
  ],
  faults: [[2, 0, 'bus-no-answer']],
  skipped: 0,
  arrivedStationS: 12.5,
};

describe('stream item', () => {
  it('takes a block whose columns are equally long', () => {
    expect(streamItem.parse(block)).toEqual(block);
  });

  it('refuses a column of another length', () => {
    expect(sampleBlock.safeParse({ ...block, columns: [[1], [2]] }).success).toBe(false);
    expect(sampleBlock.safeParse({ ...block, stepSequence: [1] }).success).toBe(false);
  });

  it.each([
    [
      'a count with a fraction',
      {
        columns: [
          [1.5, 1, 1],
          [0, 0, 0],
        ],
      },
    ],
    [
      'a count that is not finite',
      {
        columns: [
          [Number.NaN, 1, 1],
          [0, 0, 0],
        ],
      },
    ],
    ['an unknown field', { extra: 1 }],
    ['an unknown fault', { faults: [[0, 0, 'no-such-code']] }],
    ['a newer version', { v: 2 }],
    ['more samples than a block may hold', { stepUs: Array.from({ length: 257 }, () => 1) }],
  ])('refuses %s', (_words, change) => {
    expect(streamItem.safeParse({ ...block, ...change }).success).toBe(false);
  });

  it('keeps a path or a script out of a stream name', () => {
    for (const bad of ['a/b', '../../etc/passwd/1', 'a/b/c', 'a/<script>/1', 'a b/c/1'])
      expect(streamId.safeParse(bad).success).toBe(false);
  });
});
