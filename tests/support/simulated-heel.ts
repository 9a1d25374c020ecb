import { createRandom } from '#core/numerics/random.ts';
import { rollStep } from '#core/steadiness/roll-model.ts';

/**
 * Heel of a vessel at 10 Hz, about 1.25 degrees: offset, ringing, randomly driven roll, slow random
 * heel (a first-order process, rougher than the estimator's), white noise. One seed, one record.
 */
export function simulatedHeel(given: {
  seed: number;
  lengthS: number;
  meanDeg?: number;
  periodS?: number;
  dampingRatio?: number;
  rollDeg?: number;
  ringingDeg?: number;
  noiseDeg?: number;
  slowDeg?: number;
  slowTimeS?: number;
}): number[] {
  const { seed, lengthS, meanDeg = 1.25, ringingDeg = 0, noiseDeg = 0.003 } = given;
  const model = {
    periodS: given.periodS ?? 4.7,
    dampingRatio: given.dampingRatio ?? 0.05,
    rollDeg: given.rollDeg ?? 0.1,
  };
  const slowDeg = given.slowDeg ?? 0;
  const kept = Math.exp(-0.1 / (given.slowTimeS ?? 30));
  const random = createRandom(seed);
  const step = rollStep(model, 0.1);
  const l11 = Math.sqrt(step.q11);
  const l21 = l11 > 0 ? step.q12 / l11 : 0;
  const l22 = Math.sqrt(Math.max(0, step.q22 - l21 * l21));
  let roll = random.normal(model.rollDeg) + ringingDeg;
  let rate = random.normal(model.rollDeg);
  let slow = random.normal(slowDeg);
  return Array.from({ length: Math.round(lengthS * 10) }, () => {
    const first = random.normal();
    const second = random.normal();
    const next = step.a11 * roll + step.a12 * rate + l11 * first;
    rate = step.a21 * roll + step.a22 * rate + l21 * first + l22 * second;
    roll = next;
    slow = kept * slow + random.normal(slowDeg * Math.sqrt(1 - kept * kept));
    return meanDeg + roll + slow + random.normal(noiseDeg);
  });
}
