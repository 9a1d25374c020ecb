/**
 * Second-order low-pass of a sampled signal, maximally flat (Butterworth 1930), -3 dB at the
 * corner, by the bilinear transformation with the corner put right (*from memory*). It begins
 * settled on the first value.
 */
export interface LowPass {
  next(value: number): number;
}

export function createLowPass(sampleRateHz: number, cornerHz: number): LowPass {
  if (!(sampleRateHz > 0 && cornerHz > 0)) {
    throw new RangeError(`a low-pass of ${cornerHz} Hz at ${sampleRateHz} Hz`);
  }
  // A corner at half the sample rate is no filter at all.
  if (cornerHz >= sampleRateHz / 2) return { next: (value) => value };
  const warped = Math.tan((Math.PI * cornerHz) / sampleRateHz);
  const norm = 1 / (1 + Math.SQRT2 * warped + warped * warped);
  const forward = warped * warped * norm;
  const back1 = 2 * (warped * warped - 1) * norm;
  const back2 = (1 - Math.SQRT2 * warped + warped * warped) * norm;
  let first: number | null = null;
  let kept1 = 0;
  let kept2 = 0;
  return {
    next(value) {
      if (first === null) {
        first = value;
        kept1 = value * (1 - forward);
        kept2 = value * (forward - back2);
      }
      const filtered = forward * value + kept1;
      kept1 = 2 * forward * value - back1 * filtered + kept2;
      kept2 = forward * value - back2 * filtered;
      return filtered;
    },
  };
}
