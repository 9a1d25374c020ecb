import { describe, expect, it } from 'vitest';
import { blockMeans } from '#core/steadiness/heel-blocks.ts';
import { BLOCK_S, type RollModel } from '#core/steadiness/roll-model.ts';
import { pushedHeel, Whitened } from '#core/steadiness/whitened.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

const model: RollModel = {
  ...{ periodS: 5, dampingRatio: 0.05, rollDeg: 0.1, noiseDeg: 0.0025 },
  windDeg: [0.001, 0.0015, 0.002],
};
const heelOf = (seed: number) =>
  blockMeans(
    simulatedHeel({
      seed,
      lengthS: 60,
      periodS: 5,
      dampingRatio: 0.05,
      rollDeg: 0.1,
      noiseDeg: 0.005,
    }),
    0.1,
  );

describe('blocks through the glass of the model', () => {
  it('is linear: a course added to the blocks comes out added, so its size is found exactly', () => {
    const heel = heelOf(3);
    const push = pushedHeel(model, heel.length, 60, (s) => Math.min(1, s / 3));
    const plain = new Whitened(heel, model);
    const shape = plain.shape((k) => push[k]!, 60);
    const before = plain.explainedBy(shape).size;
    const pushed = new Whitened(
      heel.map((value, k) => value + 0.2 * push[k]!),
      model,
    );
    expect(pushed.explainedBy(pushed.shape((k) => push[k]!, 60)).size).toBeCloseTo(before + 0.2, 9);
    expect(pushed.explainedBy(shape).gain).toBeGreaterThan(plain.explainedBy(shape).gain + 20);
  });

  it('gains by chance what chi-squared with one degree of freedom does', () => {
    let sum = 0;
    const records = 150;
    for (let seed = 0; seed < records; seed++) {
      const whitened = new Whitened(heelOf(seed), model);
      const push = pushedHeel(model, whitened.count, 40, () => 1);
      sum += whitened.explainedBy(whitened.shape((k) => push[k]!, 40)).gain;
    }
    // Mean 1, standard deviation sqrt(2): of 150 four standard errors are .46.
    expect(Math.abs(sum / records - 1)).toBeLessThan(0.46);
  });

  it('leaves a deviation of one a block where nothing is, and sees what a course does not explain', () => {
    const whitened = new Whitened(heelOf(8), model);
    const nothing = new Float64Array(whitened.count);
    expect(whitened.leftOver(nothing, 100)).toBeGreaterThan(0.6);
    expect(whitened.leftOver(nothing, 100)).toBeLessThan(1.5);
  });

  it('brings a pushed vessel to rest where the push holds her', () => {
    const heel = pushedHeel({ ...model, dampingRatio: 0.3 }, 200, 10, () => 0.4);
    expect(heel[9]).toBe(0);
    expect(heel[199]).toBeCloseTo(0.4, 6);
    // First overshoot of a step by exp(-pi z / sqrt(1 - z^2)), half a damped period on.
    const most = Math.max(...heel);
    expect(most / 0.4 - 1).toBeCloseTo(Math.exp((-Math.PI * 0.3) / Math.sqrt(1 - 0.09)), 1);
    expect(heel.indexOf(most) * BLOCK_S).toBeCloseTo(10 * BLOCK_S + 2.6, 0);
  });
});
