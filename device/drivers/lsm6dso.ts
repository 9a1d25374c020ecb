import { stAccelerometer } from './st-accelerometer.ts';

/** ST LSM6DSO, its accelerometer at +-2 g; the gyroscope stays off. WHO_AM_I: driver lsm6dso-pid. */
export const lsm6dso = stAccelerometer({ part: 'lsm6dso', whoAmI: 0x6c, axes: ['x', 'y', 'z'] });
