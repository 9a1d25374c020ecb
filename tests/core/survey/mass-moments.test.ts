import { expect, test } from 'vitest';
import {
  momentsAt,
  momentsCentre,
  momentsTimes,
  momentsTogether,
  NO_MASS,
} from '#core/survey/mass-moments.ts';

test('two masses meet where their moments say', () => {
  const both = momentsTogether([
    momentsAt(2, { xM: 1, yM: -1, zM: 3 }),
    momentsAt(6, { xM: 5, yM: 1, zM: 1 }),
  ]);
  expect(both.massT).toBe(8);
  expect(momentsCentre(both)).toEqual({ xM: 4, yM: 0.5, zM: 1.5 });
});

test('what is put on and taken off again leaves nothing', () => {
  const one = momentsAt(3, { xM: 2, yM: 0.5, zM: 1 });
  expect(momentsTogether([one, momentsTimes(one, -1)])).toEqual(NO_MASS);
  expect(momentsCentre(NO_MASS).xM).toBeNaN();
});
