import { expect, test } from 'vitest';
import { compareEnds, type EndOfTest } from '#core/survey/closing.ts';

const BEFORE: EndOfTest = {
  zeros: [
    { instrument: 'fore', heelDeg: 0.1, standardErrorDeg: 0.004 },
    { instrument: 'aft', heelDeg: 0.13, standardErrorDeg: 0.004 },
  ],
  freeboards: (['port', 'starboard'] as const).flatMap((side) =>
    [1, 2].map((k) => ({ point: `${side} ${k}`, side, freeboardM: 0.9 })),
  ),
  densityKgM3: 1024,
  soundings: [
    { tank: 'port', depthM: 0.5 },
    { tank: 'starboard', depthM: 0.5 },
  ],
  people: [{ person: 'ann', station: 'wheelhouse' }],
  sensorZeros: [{ instrument: 'fore', zeroDeg: 0.02 }],
  weights: [{ weight: 'A', massT: 0.5 }],
};
const LAW = {
  freeboardM: 0.004,
  densityKgM3: 0.5,
  soundingM: 0.005,
  sensorZeroDeg: 0.003,
  massShare: 0.001,
  tonnesPerM: 60,
};
const after = (change: Partial<EndOfTest>) => compareEnds(BEFORE, { ...BEFORE, ...change }, LAW);
const fallen = (byM: number) =>
  BEFORE.freeboards.map((one) => ({ ...one, freeboardM: one.freeboardM - byM }));

test('all taken again and nothing moved', () => {
  expect(after({})).toMatchObject({ causes: ['unchanged'], advice: [], gainedT: 0 });
});

test.each<[string, Partial<EndOfTest>, string[]]>([
  ['20 mm deeper, tanks as they were', { freeboards: fallen(0.02) }, ['leak']],
  [
    'deeper, and the weights are wet',
    { freeboards: fallen(0.02), weights: [{ weight: 'A', massT: 0.51 }] },
    ['rain', 'weights-soaked'],
  ],
  [
    'one tank fell as the other rose',
    {
      soundings: [
        { tank: 'port', depthM: 0.44 },
        { tank: 'starboard', depthM: 0.56 },
      ],
    },
    ['transfer'],
  ],
  [
    'the zero moved and nothing else',
    { zeros: BEFORE.zeros.map((one) => ({ ...one, heelDeg: one.heelDeg + 0.05 })) },
    ['transfer'],
  ],
  [
    'the zero moved with a person',
    {
      zeros: BEFORE.zeros.map((one) => ({ ...one, heelDeg: one.heelDeg + 0.05 })),
      people: [{ person: 'ann', station: 'rail' }],
    },
    ['people-moved'],
  ],
  [
    "an instrument's zero moved",
    { sensorZeros: [{ instrument: 'fore', zeroDeg: 0.05 }] },
    ['sensor-zero'],
  ],
  ['fresh water came down', { densityKgM3: 1019 }, ['water-changed']],
])('%s', (_what, change, causes) => {
  expect(after(change).causes).toEqual(causes);
});

test('what was not taken again is named, one by one', () => {
  const { causes, advice, deeperM } = compareEnds(
    BEFORE,
    {
      zeros: [],
      freeboards: [],
      densityKgM3: null,
      soundings: [],
      people: [],
      sensorZeros: [],
      weights: [],
    },
    LAW,
  );
  expect(causes).toEqual(['not-all-taken']);
  expect(deeperM).toBeNull();
  expect(advice.map((one) => one.where)).toEqual([
    'zero',
    'two freeboards to port',
    'two freeboards to starboard',
    'water density',
    'sounding of port',
    'sounding of starboard',
    'place of ann',
    'zero of fore',
    'weighing of A',
  ]);
});

test('20 mm of 60 t a metre are 1.2 t, and heel does not count as depth', () => {
  expect(after({ freeboards: fallen(0.02) }).gainedT).toBeCloseTo(1.2, 12);
  const heeled = BEFORE.freeboards.map((one) => ({
    ...one,
    freeboardM: one.freeboardM + (one.side === 'port' ? 0.03 : -0.03),
  }));
  expect(after({ freeboards: heeled }).deeperM).toBeCloseTo(0, 12);
});
