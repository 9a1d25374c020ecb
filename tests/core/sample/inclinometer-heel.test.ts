import { expect, test } from 'vitest';
import type { Mounting } from '#core/sample/certificate.ts';
import { HeelConversion } from '#core/sample/heel.ts';
import type { Channel, SampleBlock } from '#core/sample/stream-item.ts';

const mounting: Mounting = {
  instrument: 'one',
  label: 'One',
  kind: 'inclinometer',
  sign: -1,
  spanM: null,
  heightOverRollAxisM: 0,
  settlingS: 1,
};
const channelsOf = (part: string, quantities: readonly string[]): Channel[] =>
  quantities.map((quantity) => ({ instrument: 'one', quantity, part }));

function block(columns: (number | null)[][]): SampleBlock {
  return {
    type: 'samples',
    stream: 'test/one/1',
    number: 1,
    v: 1,
    firstSequence: 0,
    firstBoardUs: 0,
    stepUs: columns[0]!.map((_, k) => (k === 0 ? 0 : 20_000)),
    columns,
    faults: [],
    skipped: 0,
    arrivedStationS: 0,
  };
}
const converted = (channels: Channel[], columns: (number | null)[][]) =>
  new HeelConversion({ channels, periodUs: 20_000 }, [{ mounting, certificate: null }]).convert(
    block(columns),
  )[0]!;

test('three axes give tan(heel) = y / z, by the sign of the mounting', () => {
  const channels = channelsOf('adxl355', ['x', 'y', 'z', 'temperature']);
  // 2 degrees: y 8934, z 255 844 counts of 256 000 a g.
  const heel = converted(channels, [[0], [8934], [255_844], [1885]]);
  expect(heel.heelDeg[0]).toBeCloseTo(-2, 3);
  expect(heel.temperatureC).toEqual([25]);
  expect(heel.faults).toEqual([]);
});

test('one axis missing is no heel; upside down is a fault of that sample', () => {
  const channels = channelsOf('lsm6dso', ['x', 'y', 'z', 'temperature']);
  const heel = converted(channels, [
    [0, 0, 0],
    [572, 572, 572],
    [16_383, null, -16_383],
    [0, 0, 0],
  ]);
  expect(heel.heelDeg.map((one) => one !== null)).toEqual([true, false, false]);
  expect(heel.faults).toEqual([[2, 'sensor-upside-down']]);
});

test('a part that is no inclinometer, an axis short, or two parts in one are refused', () => {
  const make = (channels: Channel[]) => () =>
    new HeelConversion({ channels, periodUs: 20_000 }, [{ mounting, certificate: null }]);
  expect(make(channelsOf('ads1115', ['y', 'temperature']))).toThrow(RangeError);
  expect(make(channelsOf('adxl355', ['x', 'y', 'temperature']))).toThrow(RangeError);
  const mixed = [...channelsOf('iis2iclx', ['x', 'y']), ...channelsOf('lsm6dso', ['temperature'])];
  expect(make(mixed)).toThrow(RangeError);
});
