import { expect, test } from 'vitest';
import { z } from 'zod';
import { parseTestInput, testInput } from '#core/reduction/test-input.ts';

const good = {
  heelwrightTest: 1,
  name: 'by hand',
  displacement: { value: 60, standardUncertainty: 0.3 },
  weights: [{ weight: 'A', mass: 0.5 }],
  instruments: [{ instrument: 'pendulum', reads: 'deflection', length: 1500 }],
  states: [
    { readings: { pendulum: 2 } },
    { moves: [{ weight: 'A', distance: 3.6 }], readings: { pendulum: 52 } },
    { moves: [{ weight: 'A', distance: -3.6 }], readings: { pendulum: null } },
  ],
};

const faultsOf = (change: object) => parseTestInput(JSON.stringify({ ...good, ...change })).faults;

test('a good test is taken as it stands', () => {
  const parsed = parseTestInput(JSON.stringify(good));
  expect(parsed.faults).toEqual([]);
  expect(parsed.test).toEqual(good);
});

test('what is not JSON says so', () => {
  expect(parseTestInput('{').faults[0]!.code).toBe('input-not-json');
});

test('every fault names the path of its field', () => {
  const faults = faultsOf({
    instruments: [{ instrument: 'pendulum', reads: 'deflection' }],
    states: [{ readings: { pendulum: 'two' } }],
    weight: 3,
  });
  expect(faults.map((fault) => [fault.code, fault.where])).toEqual([
    ['input-shape', 'instruments[0].length'],
    ['input-shape', 'states[0].readings.pendulum'],
    ['input-shape', 'the whole test'],
  ]);
});

test('no instruments or states at all are too few', () => {
  expect(faultsOf({ instruments: [] })[0]).toMatchObject({
    code: 'input-too-few',
    where: 'instruments',
  });
});

test.each([
  [
    'a reading of an instrument nobody named',
    { states: [{ moves: [], readings: { bubble: 1 } }] },
    'states[0].readings.bubble',
  ],
  [
    'a move of a weight nobody named',
    { states: [{ moves: [{ weight: 'Z', distance: 1 }], readings: {} }] },
    'states[0].moves[0].weight',
  ],
  [
    'moves in one state and a moment in another',
    {
      states: [
        { moves: [], readings: {} },
        { heelingMoment: 1, readings: {} },
      ],
    },
    'states[1].heelingMoment',
  ],
  ['neither moves nor moments', { states: [{ readings: {} }] }, 'states[0].heelingMoment'],
  ['KM without displacement', { displacement: undefined, km: good.displacement }, 'km'],
  [
    'an uncertainty of moments beside moves',
    { momentScaleUncertainty: 0.01 },
    'momentScaleUncertainty',
  ],
  ['two of one name', { weights: [good.weights[0], good.weights[0]] }, 'weights'],
])('%s is a contradiction with its path', (_what, change, where) => {
  const faults = faultsOf(change);
  expect(faults.map((fault) => [fault.code, fault.where])).toContainEqual([
    'input-contradiction',
    where,
  ]);
});

test('the form can be given as JSON Schema', () => {
  const schema = z.toJSONSchema(testInput) as { required: string[] };
  expect(schema.required).toContain('instruments');
});
