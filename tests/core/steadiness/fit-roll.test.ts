import { describe, expect, it } from 'vitest';
import { studentTQuantile } from '#core/numerics/student-t.ts';
import { fitRoll, heelOfBlocks } from '#core/steadiness/fit-roll.ts';
import { blockMeans, blocksWithRinging } from '#core/steadiness/heel-blocks.ts';
import type { RollModel } from '#core/steadiness/roll-model.ts';
import { FIRST_PRIOR, type RollPrior } from '#core/steadiness/roll-prior.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

const MEAN_DEG = 1.25;
/** Records a cell here; long cells belong to the trial. */
const RECORDS = 200;

interface Cell {
  readonly name: string;
  readonly periods: number;
  readonly periodS: number;
  readonly dampingRatio: number;
  readonly rollDeg: number;
  readonly noiseDeg: number;
  readonly ringingDeg?: number;
  readonly slowDeg?: number;
  readonly prior: RollPrior;
}

/** A day without wind: the random heel held near nothing, as in the records. */
const WINDLESS: RollPrior = {
  mean: [...FIRST_PRIOR.mean.slice(0, 4), Math.log(0.001), Math.log(0.0005)],
  spread: [...FIRST_PRIOR.spread.slice(0, 4), 0.3, 0.6],
};

function taught(cell: Omit<Cell, 'prior' | 'name' | 'periods'>): RollPrior {
  const { periodS, dampingRatio, rollDeg, noiseDeg } = cell;
  return {
    mean: [periodS, dampingRatio, rollDeg, noiseDeg / 2, 0.001, 0.0005].map(Math.log),
    spread: [0.03, 0.3, 0.4, 0.3, 0.3, 0.6],
  };
}

/** Efficiency against generalised least squares with true numbers on the same records, and coverage. */
function runCell(cell: Cell): { ratio: number; coverage: number } {
  const truth: RollModel = {
    periodS: cell.periodS,
    dampingRatio: cell.dampingRatio,
    rollDeg: cell.rollDeg,
    noiseDeg: cell.noiseDeg / 2,
    slowDeg: Math.max(cell.slowDeg ?? 0, 1e-6),
    quickDeg: 1e-6,
  };
  let own = 0;
  let bound = 0;
  let inside = 0;
  for (let seed = 0; seed < RECORDS; seed++) {
    const lengthS = Math.round((cell.periods * cell.periodS) / 0.4) * 0.4;
    const record = simulatedHeel({ ...cell, seed, lengthS, meanDeg: MEAN_DEG });
    const blocks = blocksWithRinging(blockMeans(record, 0.1));
    const fit = fitRoll(blocks, cell.prior);
    own += (fit.heelDeg - MEAN_DEG) ** 2;
    bound += (heelOfBlocks(blocks, truth).heelDeg - MEAN_DEG) ** 2;
    const half = studentTQuantile(0.975, fit.degreesOfFreedom) * Math.sqrt(fit.widenedVariance);
    if (Math.abs(fit.heelDeg - MEAN_DEG) < half) inside += 1;
  }
  const ratio = Math.sqrt(own / bound);
  const coverage = inside / RECORDS;
  console.log(
    `${cell.name}: rms error ${Math.sqrt(own / RECORDS).toFixed(4)} deg, over the bound ${ratio.toFixed(3)}, 95 % interval holds ${(100 * coverage).toFixed(1)} %`,
  );
  return { ratio, coverage };
}

describe('fit of the roll model', () => {
  it('returns the offset of a noise-free ringing to 1e-6, and its period and damping', () => {
    // y = 1.25 + 0.8 e^(-a t) cos(w t + 0.3) at 10 Hz over 30 s, period 5 s, damping ratio .03;
    // y0 2.01426919, y299 1.505945757, plain mean 1.246921138
    const record = Array.from({ length: 300 }, (_, k) => {
      const t = k / 10;
      return 1.25 + 0.8 * Math.exp(-0.037699111843 * t) * Math.cos(1.256071447466 * t + 0.3);
    });
    expect(record[0]).toBeCloseTo(2.01426919, 8);
    expect(record[299]).toBeCloseTo(1.505945757, 8);
    const fit = fitRoll(blocksWithRinging(blockMeans(record, 0.1)), FIRST_PRIOR);
    expect(Math.abs(fit.heelDeg - 1.25)).toBeLessThan(1e-6);
    expect(fit.model.periodS).toBeCloseTo(5, 5);
    expect(fit.model.dampingRatio).toBeCloseTo(0.03, 5);
  });

  const five = { periodS: 5, dampingRatio: 0.05, rollDeg: 0.3, noiseDeg: 0.02 };
  const quick = { periodS: 3, dampingRatio: 0.02, rollDeg: 0.05, noiseDeg: 0.002, ringingDeg: 2 };
  const cells: (Cell & { most: number })[] = [
    { ...five, name: 'five periods, one window alone', periods: 5, prior: WINDLESS, most: 1.05 },
    { ...quick, name: 'five periods, large ringing', periods: 5, prior: WINDLESS, most: 1.05 },
    { ...five, name: 'three periods, a taught day', periods: 3, prior: taught(five), most: 1.1 },
    { ...five, name: 'three periods, one window alone', periods: 3, prior: WINDLESS, most: 1.35 },
  ];
  it.each(cells)('reaches the bound and states it honestly: $name', (cell) => {
    const { ratio, coverage } = runCell(cell);
    expect(ratio).toBeLessThan(cell.most + 0.05);
    expect(coverage).toBeGreaterThan(0.89);
    expect(coverage).toBeLessThan(0.995);
  });

  it('does not miss a slow random heel: sd .02, 30 s under roll .1, where the roll alone says .0052', () => {
    // The true error of a 60 s reading is .0160 (roll .0052 and the slow heel's mean .0151).
    const wind = { periodS: 5, dampingRatio: 0.05, rollDeg: 0.1, noiseDeg: 0.005, slowDeg: 0.02 };
    const cell = { ...wind, name: 'slow heel, one window alone', periods: 12, prior: FIRST_PRIOR };
    const { ratio, coverage } = runCell(cell);
    expect(ratio).toBeLessThan(1.1);
    expect(coverage).toBeGreaterThan(0.85);
  });

  it('comes to the same from an earlier fit as from the beginning', () => {
    const record = simulatedHeel({ seed: 77, lengthS: 60 });
    const early = fitRoll(blocksWithRinging(blockMeans(record.slice(0, 480), 0.1)), FIRST_PRIOR);
    const blocks = blocksWithRinging(blockMeans(record, 0.1));
    const near = fitRoll(blocks, FIRST_PRIOR, early);
    const fresh = fitRoll(blocks, FIRST_PRIOR);
    expect(Math.abs(near.heelDeg - fresh.heelDeg)).toBeLessThan(0.05 * Math.sqrt(fresh.variance));
    expect(near.widenedVariance / fresh.widenedVariance).toBeCloseTo(1, 0);
  });

  it('mirrors with the vessel and moves with the zero', () => {
    const record = simulatedHeel({ seed: 9, lengthS: 40, ringingDeg: 0.5 });
    const fitOf = (heel: readonly number[]) =>
      fitRoll(blocksWithRinging(blockMeans(heel, 0.1)), FIRST_PRIOR);
    const fit = fitOf(record);
    const mirrored = fitOf(record.map((heel) => -heel));
    const moved = fitOf(record.map((heel) => heel + 2));
    expect(mirrored.heelDeg).toBeCloseTo(-fit.heelDeg, 6);
    expect(mirrored.widenedVariance / fit.widenedVariance).toBeCloseTo(1, 4);
    expect(moved.heelDeg).toBeCloseTo(fit.heelDeg + 2, 6);
  });
});
