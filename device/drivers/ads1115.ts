import { twoInputs } from './two-inputs.ts';

/**
 * TI ADS1115 with a level transmitter of 4 to 20 mA over a shunt on each input: AIN0 the port leg,
 * AIN1 the starboard leg of the water tube.
 */
export const ads1115 = twoInputs({
  part: 'ads1115',
  fullScale: '4.096 V',
  quantities: ['port', 'starboard'],
  isLeg: false,
  foundByLooking: true,
});
