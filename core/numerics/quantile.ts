import { Fault } from '../fault/fault.ts';
import { bracketedRoot } from './root.ts';

/**
 * The x > 0 at which a probability, falling or rising steadily with x, has the wanted value.
 * Works on logarithms of both, so that far tails keep their digits.
 */
export function positiveQuantile(probabilityAt: (x: number) => number, wanted: number): number {
  const logWanted = Math.log(wanted);
  const difference = (logX: number): number => {
    const here = probabilityAt(Math.exp(logX));
    return (here > 0 ? Math.log(here) : -1e4) - logWanted;
  };
  let width = 1;
  while (difference(-width) * difference(width) > 0) {
    width *= 2;
    if (width > 700) throw new Fault('no-convergence', 'quantile', `probability ${wanted}`);
  }
  return Math.exp(bracketedRoot(difference, -width, width));
}
