import { expect, test } from 'vitest';
import { parseTestInput } from '#core/reduction/test-input.ts';
import { floatedTest } from '#tests/core/reduction/a-floated-test.ts';

const faults = (change: object) =>
  parseTestInput(JSON.stringify({ ...floatedTest(), ...change })).faults.map((one) => one.where);

test('a test with hull, waterline and water is taken as it is', () => {
  const parsed = parseTestInput(JSON.stringify(floatedTest()));
  expect(parsed.faults).toEqual([]);
});

test('displacement given twice, a missing part, other units are refused where they stand', () => {
  expect(faults({ displacement: { value: 184, standardUncertainty: 1 } })).toEqual([
    'displacement',
  ]);
  expect(faults({ water: undefined })).toEqual(['water']);
  expect(faults({ units: { mass: 'ton', length: 'ft' } })).toEqual(['units']);
});

test('a tank without contents, tanks without a hull, a drift without times are refused', () => {
  const [tank] = floatedTest().liquids!.tanks;
  const { volumeM3: _, ...empty } = tank!;
  expect(faults({ liquids: { tanks: [empty] } })).toEqual(['liquids.tanks[0]']);
  const none = { hull: undefined, waterline: undefined, water: undefined };
  expect(faults(none)).toEqual(['liquids']);
  expect(faults({ ...none, liquids: undefined, listFromWaterline: true })).toEqual([
    'listFromWaterline',
  ]);
  expect(faults({ drift: true })).toEqual(['drift']);
});
