import { twoInputs } from './two-inputs.ts';

/**
 * NXP MPX5010 behind an ADS1115 of its own at the foot of one leg: AIN0 its output, AIN1 the
 * supply of both, since its output is a share of the supply.
 */
export const mpx5010 = twoInputs({
  part: 'mpx5010',
  fullScale: '6.144 V',
  quantities: ['leg', 'supply'],
  isLeg: true,
  foundByLooking: false,
});
