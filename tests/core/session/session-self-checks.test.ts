import { expect, it } from 'vitest';
import { sessionSelfChecks } from '#core/session/session-self-checks.ts';
import { aDay } from './a-day.ts';

it('finds the one sensor that does not come back, and leaves the common list to the vessel', () => {
  const day = aDay();
  const last = day.states.at(-1)!;
  const instruments = last.reading!.instruments.map((one) => ({
    ...one,
    heelDeg: one.heelDeg + 0.2 + (one.instrument === 'fore' ? 0.03 : 0),
  }));
  const states = day.states.with(-1, { ...last, reading: { ...last.reading!, instruments } });
  const [fore, aft] = sessionSelfChecks({ ...day, states });
  expect(fore?.zeroReturnDeg).toBeCloseTo(0.03, 9);
  expect(fore?.troubles).toContain('zero-not-returned');
  expect(aft?.zeroReturnDeg).toBeCloseTo(0, 9);
});

it('tells no zero where the first arrangement was never read again, or not at all yet', () => {
  const [fore] = sessionSelfChecks(aDay({ states: 3 }));
  expect(fore).toMatchObject({ zeroReturnDeg: null, noiseRatio: null, troubles: [] });
  expect(sessionSelfChecks({ ...aDay(), states: [] })[0]).toEqual(fore);
});
