/**
 * Texas Instruments ADS1115, four-input 16-bit converter. Source: TI data sheet SBAS444, config
 * register (PGA and DR fields) and full-scale range table.
 */

/** Conversion register: 16 bits, two's complement; to ground only half of it is used. */
export const MOST_COUNTS = 32767;
export const LEAST_COUNTS = -32768;

/** Full scale in volts by PGA field; fields 6 and 7 are the same as 5. */
const FULL_SCALE_V = [6.144, 4.096, 2.048, 1.024, 0.512, 0.256] as const;

/** The PGA field the program sets: +-4.096 V, 125 microvolts a count. */
export const PGA_FIELD = 1;

/** Conversions a second by DR field; the chip's own oscillator is within 10 %. */
const SAMPLES_PER_S = [8, 16, 32, 64, 128, 250, 475, 860] as const;

/** Volts a count: full scale over 2^15. RangeError for a field the register does not have. */
export function voltsPerCount(pgaField: number): number {
  const fullScaleV = FULL_SCALE_V[Math.min(pgaField, 5)];
  if (fullScaleV === undefined || pgaField > 7) {
    throw new RangeError(`an ADS1115 has no PGA field ${pgaField} (0..7)`);
  }
  return fullScaleV / 32768;
}

/** Volts at the input from counts. Linear beyond 16 bits, so means may be given. */
export function voltsFromCounts(counts: number, pgaField: number = PGA_FIELD): number {
  return counts * voltsPerCount(pgaField);
}

/** Seconds one conversion takes at nominal oscillator. RangeError for an unknown field. */
export function conversionS(dataRateField: number): number {
  const rate = SAMPLES_PER_S[dataRateField];
  if (rate === undefined) {
    throw new RangeError(`an ADS1115 has no data rate field ${dataRateField} (0..7)`);
  }
  return 1 / rate;
}
