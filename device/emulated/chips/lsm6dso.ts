import type { InclinometerElement } from '../elements/element.ts';
import { StAccelerometer } from './st-accelerometer.ts';

/**
 * ST LSM6DSO with its gyroscope off, three axes; WHO_AM_I and CTRL1_XL FS_XL as in the maker's
 * driver lsm6dso-pid. The output registers of the gyroscope read 0.
 */
export class Lsm6dso extends StAccelerometer {
  constructor(address: 0x6a | 0x6b, element: InclinometerElement) {
    super(address, element, { whoAmI: 0x6c, rangesG: [2, 16, 4, 8], axisCount: 3 });
  }
}
