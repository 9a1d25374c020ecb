import { hashNormal, streamFromSeed } from '#core/numerics/random.ts';

/** A random process advanced one fixed step at a time; its value has standard deviation 1. */
export interface RandomProcess {
  /** The value at the end of step `step`, which must be the one after the last. */
  advance(step: number): number;
}

/** First-order Gauss-Markov process: correlation falls by e in `correlationS`. Exact on the step. */
export function slowProcess(
  seed: number,
  name: string,
  correlationS: number,
  stepS: number,
): RandomProcess {
  const stream = streamFromSeed(seed, name);
  const keep = Math.exp(-stepS / correlationS);
  const fresh = Math.sqrt(1 - keep * keep);
  let value = hashNormal(stream, 0);
  return {
    advance(step) {
      value = keep * value + fresh * hashNormal(stream, step + 1);
      return value;
    },
  };
}

/**
 * Narrow-band process: the real part of a vector turning once in `periodS` whose two components
 * are Gauss-Markov processes of the given correlation time. Exact on the step.
 */
export function narrowBandProcess(
  seed: number,
  name: string,
  band: { periodS: number; correlationS: number },
  stepS: number,
): RandomProcess {
  const stream = streamFromSeed(seed, name);
  const keep = Math.exp(-stepS / band.correlationS);
  const fresh = Math.sqrt(1 - keep * keep);
  const turn = (2 * Math.PI * stepS) / band.periodS;
  const cosine = keep * Math.cos(turn);
  const sine = keep * Math.sin(turn);
  let real = hashNormal(stream, 0);
  let other = hashNormal(stream, 1);
  return {
    advance(step) {
      const turned = cosine * real - sine * other;
      other = sine * real + cosine * other + fresh * hashNormal(stream, 2 * step + 2);
      real = turned + fresh * hashNormal(stream, 2 * step + 3);
      return real;
    },
  };
}
