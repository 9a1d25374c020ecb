import { expect, test } from 'vitest';
import { deckEdgeAt } from '#core/hull/hull.ts';
import { forecastPlan } from '#core/reduction/plan-forecast.ts';
import { planNearTheWater } from '#core/reduction/plan-near-water.ts';
import { planOfTest } from '#core/session/plan-of-test.ts';
import { marramTest } from '#device/emulated/marram.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';

const plan = planOfTest(marramTest());
const forecast = forecastPlan(plan);
const afloat = { volumeM3: (1000 * plan.displacementT.value) / 1025, trimRad: 0.005 };
const codes = (hull = marramHull(), looked = forecast) =>
  planNearTheWater(hull, looked, afloat).map(({ code, where }) => `${code}, ${where}`);

test('nothing is near the water at twice the heel she is planned to', () => {
  expect(codes()).toEqual([]);
});

test('an opening low in the side is named on the side that goes down', () => {
  const hull = marramHull();
  const edge = deckEdgeAt(hull, 5)!;
  const low = {
    name: 'freeing port',
    xM: 5,
    yM: edge.yM,
    zM: 1.55,
    closing: 'unprotected' as const,
  };
  expect(codes({ ...hull, openings: [low] })).toEqual(['opening-near, freeing port, to starboard']);
});

test('a plan that heels her eight times as far brings the deck edge down on both sides', () => {
  const shifts = forecast.shifts.map((shift) => ({ ...shift, heelDeg: 8 * shift.heelDeg }));
  expect(codes(marramHull(), { ...forecast, shifts })).toEqual(
    expect.arrayContaining(['deck-edge-near, to port', 'deck-edge-near, to starboard']),
  );
});
