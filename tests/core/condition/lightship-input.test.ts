import { expect, test } from 'vitest';
import { lightshipCauses, lightshipInput } from '#core/condition/lightship-input.ts';

const LIGHT = {
  mass: { value: 40, standardUncertainty: 0.4 },
  lcg: { value: 6.5 },
  tcg: { value: 0.01 },
  vcg: { value: 1.8, standardUncertainty: 0.02, degreesOfFreedom: 6 },
};

test('an error of mass lies at the lightship, one of VCG lifts all of it', () => {
  const causes = lightshipCauses(lightshipInput.parse(LIGHT))!;
  expect(causes.map(({ cause }) => cause)).toEqual([
    'mass of the lightship',
    'VCG of the lightship',
  ]);
  expect(causes[0]!.massT).toBeCloseTo(0.4, 12);
  expect(causes[0]!.zTM).toBeCloseTo(0.72, 12);
  expect(causes[1]).toMatchObject({ massT: 0, zTM: 0.8, degreesOfFreedom: 6 });
});

test('without an uncertainty of VCG nothing is known of any margin', () => {
  expect(lightshipCauses(lightshipInput.parse({ ...LIGHT, vcg: { value: 1.8 } }))).toBeNull();
});
