import { expect, it } from 'vitest';
import type { SmoothedHeel } from '#receiver/live-streams.ts';
import { StateTold } from '#receiver/state-told.ts';

const heel = (atS: number): SmoothedHeel => ({
  instrument: 'fore',
  atS: [atS],
  heelDeg: [1],
  temperatureC: null,
  shaking: [],
});

it('tells a new watch the aim, the state, its samples and what was overruled, in that order', () => {
  const told = new StateTold();
  told.aim({ standardErrorDeg: 0.01, restM: 0.01, mPerDeg: 0.3, missingDeg: 0 });
  told.begin(5);
  told.smoothed(heel(6));
  told.overrule({ type: 'overrule', fromS: 5, toS: 6, instruments: null });
  expect(told.again().map(({ type }) => type)).toEqual([
    'target',
    'begin-state',
    'samples',
    'overrule',
  ]);
  told.lift(9);
  told.smoothed(heel(10));
  expect(told.sinceS).toBeNull();
  expect(told.again().map(({ type }) => type)).toEqual(['target', 'carrying']);
});
