import { expect, test } from 'vitest';
import { aDay } from '#tests/core/session/a-day.ts';
import { checkedSensors } from '../../../ui/sensors/self-check.ts';

test('a sensor is held to the noise of its certificate, and says nothing without one', () => {
  const day = aDay();
  const certificates = day.certificates.map((one) =>
    one.instrument === 'fore' ? { ...one, noise: 0.002 } : one,
  );
  const at = (noiseDeg: number) =>
    checkedSensors({ ...day, certificates }, () => noiseDeg).map(({ noiseRatio, troubles }) => ({
      noiseRatio,
      troubles: troubles.length,
    }));
  expect(at(0.002)[0]).toEqual({ noiseRatio: 1, troubles: 0 });
  expect(at(0.006)[0]!.troubles).toBe(1);
  expect(at(0.0001)[0]!.troubles).toBe(1);
  expect(at(0.006)[1]).toEqual({ noiseRatio: null, troubles: 0 });
});

test('one whose zero did not come back is named, the vessel herself is not', () => {
  const day = aDay();
  const last = day.states.at(-1)!;
  const shifted = (only: string | null) => ({
    ...day,
    states: day.states.with(-1, {
      ...last,
      reading: {
        ...last.reading!,
        instruments: last.reading!.instruments.map((one) =>
          only === null || one.instrument === only ? { ...one, heelDeg: one.heelDeg + 0.05 } : one,
        ),
      },
    }),
  });
  const named = (of: typeof day) =>
    checkedSensors(of, () => null).flatMap(({ instrument, troubles }) =>
      troubles.length > 0 ? [instrument] : [],
    );
  expect(named(shifted('aft'))).toEqual(['aft']);
  expect(named(shifted(null))).toEqual([]);
});
