import { expect, it } from 'vitest';
import type { PlanOutput } from '#core/reduction/plan-output.ts';
import { paperSheet, planLetter } from '#core/report/plan-documents.ts';
import { textsOf } from '#tests/support/reported-day.ts';

const at = { xM: 7, yM: -2, zM: 2 };
const plan = {
  heelwrightPlan: 1 as const,
  name: 'Marram, spring',
  displacementT: { value: 46.8, standardUncertainty: 0.1 },
  gmGuessM: { value: 0.95, standardUncertainty: 0.1 },
  weights: [{ weight: 'A', massT: 0.25, standardUncertaintyT: 0.0002, at }],
  distanceUncertaintyM: 0.004,
  shifts: [1, 2].map((k) => ({ moves: [{ weight: 'A', to: { ...at, yM: k === 1 ? 2 : -2 } }] })),
  instruments: [{ instrument: 'Pendulum', reads: 'deflection' as const, lengthMm: 3000 }],
  stateUncertaintyDeg: 0.01,
};
const forecast: PlanOutput = {
  heelwrightPlanForecast: 1,
  plan: plan.name,
  gmM: { value: 0.95, halfWidth95: 0.012 },
  kgM: null,
  budget: [],
  shifts: [
    {
      state: 1,
      heelingMomentTM: 1,
      heelDeg: 1.288,
      heelIfTenderDeg: null,
      heelIfStiffDeg: 1.1,
      stopDeg: 1.93,
      deflections: [{ instrument: 'Pendulum', mm: 67.4 }],
    },
    {
      state: 2,
      heelingMomentTM: 0,
      heelDeg: 0,
      heelIfTenderDeg: 0,
      heelIfStiffDeg: 0,
      stopDeg: 0,
      deflections: [{ instrument: 'Pendulum', mm: 0 }],
    },
  ],
  safety: [],
  advice: [],
  beforeTheFirstShift: ['She swings free.'],
  stopRules: ['Weight back.'],
};
const planned = { plan, forecast, wall: '2026-05-04T09:00:00.000Z' };

it('tells the authority weights, instruments, shifts and the greatest heel, with room for what a plan does not hold', () => {
  const texts = textsOf(planLetter(planned).blocks);
  expect(texts).toEqual(
    expect.arrayContaining([
      '0.00° and 1.29°',
      '1.10 to over',
      '67',
      '0.25',
      'Weight back.',
      'Tanks: which full, empty, slack',
      'KM is not known',
    ]),
  );
});

it('gives whoever goes on by hand the expected values and a row for every state', () => {
  const document = paperSheet(planned);
  const texts = textsOf(document.blocks);
  expect(texts).toEqual(expect.arrayContaining(['A to y 2 m', '1.93', 'Pendulum: extremes, mm']));
  const byHand = document.blocks.find(
    (block) => block.kind === 'table' && block.columns.some(({ head }) => head === 'Initials'),
  );
  expect(byHand?.kind === 'table' && byHand.rows).toHaveLength(3);
  expect(document.marks).toEqual(['Plan: no reading is taken yet']);
});
