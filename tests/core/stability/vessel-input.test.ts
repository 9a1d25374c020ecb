import { expect, test } from 'vitest';
import { vesselFrom, vesselInput } from '#core/stability/vessel-input.ts';

test('what is left out is not known', () => {
  const vessel = vesselFrom('a test', vesselInput.parse({ lengthsM: { overall: 16.4 } }));
  expect(vessel.lengthsM).toEqual({ overall: 16.4 });
  expect(vessel).toMatchObject({ services: null, decked: null, keelAreaM2: null, bilge: null });
  expect(() => vesselInput.parse({ lengthsM: {}, services: ['yachting'] })).toThrow();
});
