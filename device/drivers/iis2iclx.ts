import { stAccelerometer } from './st-accelerometer.ts';

/** ST IIS2ICLX, two-axis inclinometer, +-0.5 g. WHO_AM_I: data sheet DS13005 Rev 7, p. 41. */
export const iis2iclx = stAccelerometer({ part: 'iis2iclx', whoAmI: 0x6b, axes: ['x', 'y'] });
