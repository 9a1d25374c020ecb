import { checkAllFinite } from '../quantity/check.ts';
import { median } from '../signal/robust.ts';

/** One instrument on its base before the day, and again at its end. */
export interface SelfCheckInput {
  readonly instrument: string;
  /** What it showed at rest, with its certificate, degrees; standard error of that mean. Null: not read yet. */
  readonly beforeDeg: number | null;
  readonly beforeErrorDeg: number | null;
  /** At the end, in the same state; null while the day goes on. */
  readonly afterDeg: number | null;
  readonly afterErrorDeg: number | null;
  /** Noise of single smoothed samples now, and at its calibration. Null: not known, not stated. */
  readonly noiseDeg: number | null;
  readonly certificateNoiseDeg: number | null;
}

export interface SelfCheck {
  readonly instrument: string;
  /** End less beginning, cleared of what all instruments show together (the vessel's own list). */
  readonly zeroReturnDeg: number | null;
  readonly zeroReturnErrorDeg: number | null;
  readonly noiseRatio: number | null;
  readonly troubles: readonly ('zero-not-returned' | 'noisier' | 'too-quiet')[];
}

/** Zero return over the day, degrees; more is told. Ours. */
export const MOST_ZERO_RETURN_DEG = 0.01;
/** Twice the noise of its certificate, or a fifth of it (a value that is stuck), is told. Ours. */
export const MOST_NOISE_RATIO = 2;
export const LEAST_NOISE_RATIO = 0.2;

/**
 * Each instrument against itself: does the zero return, is the noise that of its certificate. She
 * herself may list a little more in the evening than in the morning; what all instruments show in
 * common (their median, three or more) is hers and taken off; with fewer it is not, and stands in
 * every zero return. Faults: `input-not-finite`.
 */
export function selfChecks(inputs: readonly SelfCheckInput[]): SelfCheck[] {
  const changes = inputs.map(({ beforeDeg, afterDeg }) =>
    afterDeg === null || beforeDeg === null ? null : afterDeg - beforeDeg,
  );
  const seen = changes.filter((one) => one !== null);
  checkAllFinite(seen, 'self-check');
  const common = seen.length >= 3 ? median(seen) : 0;
  return inputs.map((input, k) => {
    const change = changes[k] ?? null;
    const zeroReturnDeg = change === null ? null : change - common;
    const zeroReturnErrorDeg =
      input.afterErrorDeg === null || input.beforeErrorDeg === null
        ? null
        : Math.hypot(input.beforeErrorDeg, input.afterErrorDeg);
    const { noiseDeg, certificateNoiseDeg } = input;
    const noiseRatio =
      noiseDeg === null || certificateNoiseDeg === null ? null : noiseDeg / certificateNoiseDeg;
    return {
      instrument: input.instrument,
      zeroReturnDeg,
      zeroReturnErrorDeg,
      noiseRatio,
      troubles: [
        ...(zeroReturnDeg !== null &&
        Math.abs(zeroReturnDeg) > MOST_ZERO_RETURN_DEG + 2 * (zeroReturnErrorDeg ?? 0)
          ? (['zero-not-returned'] as const)
          : []),
        ...(noiseRatio !== null && noiseRatio > MOST_NOISE_RATIO ? (['noisier'] as const) : []),
        ...(noiseRatio !== null && noiseRatio < LEAST_NOISE_RATIO ? (['too-quiet'] as const) : []),
      ],
    };
  });
}
