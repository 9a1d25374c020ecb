import { Fault } from '../fault/fault.ts';

/**
 * A covariance as independent parts: columns whose outer products sum to it (the factor of
 * Cholesky, row by row). A part of no variance is left out.
 */
export function independentParts(covariance: readonly (readonly number[])[]): number[][] {
  const size = covariance.length;
  const left = covariance.map((row) => [...row]);
  const parts: number[][] = [];
  for (let k = 0; k < size; k++) {
    const variance = left[k]![k]!;
    const rounding = 1e-12 * Math.abs(covariance[k]![k]!);
    if (!Number.isFinite(variance) || variance < -rounding) {
      throw new Fault('input-range', `covariance[${k}]`, `variance ${variance}`);
    }
    if (variance <= rounding) continue;
    const root = Math.sqrt(variance);
    const part = left.map((row) => row[k]! / root);
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) left[i]![j]! -= part[i]! * part[j]!;
    }
    parts.push(part);
  }
  return parts;
}
