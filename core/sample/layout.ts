import type { Channel } from './stream-item.ts';

/** Instruments of the outfit this program knows: two inclinometers and a water tube. */
export const INSTRUMENTS = { fore: 'fore', aft: 'aft', tube: 'tube' } as const;

function inclinometerChannels(instrument: string): Channel[] {
  return ['x', 'y', 'temperature'].map((quantity) => ({ instrument, quantity, part: 'iis2iclx' }));
}

/**
 * The columns of each board's stream, in order. `x`, `y`, `temperature` are register counts of an
 * IIS2ICLX (y grows when starboard goes down, mounted with its y axis to port). `port` and
 * `starboard` are conversions of an ADS1115 at +-4.096 V reading each leg of the water tube over
 * a shunt; one leg a frame in turn, the other null without a fault.
 */
export const BOARD_CHANNELS: {
  readonly fore: readonly Channel[];
  readonly aft: readonly Channel[];
} = {
  fore: inclinometerChannels(INSTRUMENTS.fore),
  aft: [
    ...inclinometerChannels(INSTRUMENTS.aft),
    { instrument: INSTRUMENTS.tube, quantity: 'port', part: 'ads1115' },
    { instrument: INSTRUMENTS.tube, quantity: 'starboard', part: 'ads1115' },
  ],
};
