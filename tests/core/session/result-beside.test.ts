import { expect, test } from 'vitest';
import { resultCannotShow, resultSafety, resultTruth } from '#core/session/result-beside.ts';
import { aDay } from '#tests/core/session/a-day.ts';

const gm = { value: 0.9, standardUncertainty: 0.01, degreesOfFreedom: 7, halfWidth95: 0.024 };

test('the plan’s advice stands before the first shift and goes with it', () => {
  const day = aDay({ states: 1 });
  const place = { xM: 8, yM: 1.8, zM: 2.4 };
  const plan = [{ moves: [{ weight: 'A', to: place }] }];
  const planned = { ...day, test: { ...day.test!, plan } };
  expect(resultSafety(planned, null)).toContainEqual({
    code: 'first-shift-large',
    stop: false,
    share: 1,
    mostShare: 0.25,
  });
  expect(resultSafety({ ...planned, states: aDay({ states: 2 }).states }, null)).toEqual([]);
});

test('a heel far over its prediction, and a small GM, stop', () => {
  const day = aDay({ states: 2 });
  const last = { ...day.states[1]!, predictedHeelDeg: 1, predictedStandardErrorDeg: 0.1 };
  const [heeled] = resultSafety({ ...day, states: [day.states[0]!, last] }, null);
  expect(heeled).toMatchObject({ stop: true });
  expect(resultSafety(aDay({ states: 2 }), { ...gm, value: 0.1 })[0]!.stop).toBe(true);
});

test('evidence is what the record holds', () => {
  const list = resultCannotShow(aDay());
  const evidence = (begins: string) => list.find((one) => one.what.startsWith(begins))!.evidence;
  expect(evidence('all instruments')).toBe('calibrated by sine bar');
  expect(evidence('lines, fenders')).toBe('none');
  expect(
    resultCannotShow({ ...aDay(), test: null, certificates: [] }).every(
      (one) => one.evidence === 'none',
    ),
  ).toBe(true);
});

test('there is no truth to stand beside a real day', () => {
  expect(resultTruth(aDay(), gm)).toBeNull();
});

test('GM over three times KG is warned of where KM is known, and never stops', () => {
  const day = aDay({ states: 2 });
  const of = (kmM: number | null) => {
    const particulars = { ...day.test!.particulars, kmM };
    return resultSafety({ ...day, test: { ...day.test!, particulars } }, gm);
  };
  // GM 0.9: KG 0.29 is under a third of it, 0.31 over
  expect(of(1.19)).toContainEqual({
    code: 'gm-over-three-kg',
    stop: false,
    gmM: 0.9,
    kgM: expect.closeTo(0.29, 12),
  });
  expect(of(1.21)).toEqual([]);
  expect(of(null)).toEqual([]);
});
