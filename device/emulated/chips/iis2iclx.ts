import type { InclinometerElement } from '../elements/element.ts';
import { StAccelerometer } from './st-accelerometer.ts';

/** ST IIS2ICLX: two axes; WHO_AM_I and CTRL1_XL FS_XL by data sheet DS13005 Rev 7, p. 41. */
export class Iis2iclx extends StAccelerometer {
  /** 0x6A with SA0 low, 0x6B with SA0 high. */
  constructor(address: 0x6a | 0x6b, element: InclinometerElement) {
    super(address, element, { whoAmI: 0x6b, rangesG: [0.5, 3, 1, 2], axisCount: 2 });
  }
}
