/** A symmetric kernel of finite support, tabulated: looked up by distance in time from its centre. */
export interface Kernel {
  /** Nothing farther than this from the centre counts. */
  readonly halfWidthS: number;
  /** Weight at a distance of 0 to halfWidthS, by straight lines between table values. */
  at(distanceS: number): number;
}

const TABLE_INTERVALS = 2048;

/**
 * The impulse response of a linear-phase low-pass: sin(2 pi f t)/(pi t) under a Blackman window
 * (standard text on digital filters, from memory), which leaves under 1e-3 in the stop band from
 * about cut-off + 3/(2 halfWidthS) on. Not normalised: whoever uses it divides by the sum of the
 * weights, so that a constant stays exactly what it is.
 */
export function lowPassKernel(cutOffHz: number, halfWidthS: number): Kernel {
  const table = new Float64Array(TABLE_INTERVALS + 2);
  for (let i = 0; i <= TABLE_INTERVALS; i++) {
    const part = i / TABLE_INTERVALS;
    const turn = 2 * Math.PI * cutOffHz * part * halfWidthS;
    const sinc = i === 0 ? 1 : Math.sin(turn) / turn;
    const window = 0.42 + 0.5 * Math.cos(Math.PI * part) + 0.08 * Math.cos(2 * Math.PI * part);
    table[i] = sinc * window;
  }
  const intervalsPerS = TABLE_INTERVALS / halfWidthS;
  return {
    halfWidthS,
    at(distanceS) {
      const place = distanceS * intervalsPerS;
      if (!(place <= TABLE_INTERVALS)) return 0;
      const i = Math.floor(place);
      return table[i]! + (place - i) * (table[i + 1]! - table[i]!);
    },
  };
}
