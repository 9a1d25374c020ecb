import { expect, it } from 'vitest';
import { columnOf, faultKey, needPart, soundCount } from '#core/sample/checked-block.ts';
import type { SampleBlock } from '#core/sample/stream-item.ts';

const channels = [
  { instrument: 'fore', quantity: 'x', part: 'iis2iclx' },
  { instrument: 'fore', quantity: 'y', part: 'iis2iclx' },
];
const block: SampleBlock = {
  type: 'samples',
  stream: 'test/fore/1',
  number: 1,
  v: 1,
  firstSequence: 0,
  firstBoardUs: 0,
  stepUs: [0, 20_000],
  columns: [
    [1, 2],
    [3, null],
  ],
  faults: [[0, 1, 'chip-saturated']],
  skipped: 0,
  arrivedStationS: 0,
};

it('finds a column by instrument and quantity, and says which is missing', () => {
  expect(columnOf(channels, 'fore', 'y')).toEqual({ index: 1, part: 'iis2iclx' });
  expect(() => columnOf(channels, 'fore', 'z')).toThrow('fore has no column z');
  expect(() => needPart(columnOf(channels, 'fore', 'y'), 'ads1115')).toThrow(RangeError);
  expect(() => needPart(columnOf(channels, 'fore', 'y'), 'iis2iclx')).not.toThrow();
});

it('gives no count that has a fault or is missing', () => {
  const checked = {
    block,
    faulty: new Set(block.faults.map(([k, column]) => faultKey(k, column))),
  };
  const [x, y] = ['x', 'y'].map((quantity) => columnOf(channels, 'fore', quantity));
  expect([0, 1].map((k) => soundCount(checked, x!, k))).toEqual([1, 2]);
  expect([0, 1].map((k) => soundCount(checked, y!, k))).toEqual([null, null]);
});
