import { straightLine } from '../numerics/least-squares.ts';
import { type FTest, fTest, type LineFit } from './line.ts';

/** Moments nearer than this share of the largest are one arrangement read again. */
const SAME_MOMENT_SHARE = 0.01;

/**
 * Lack of fit: do the states bend away from the line by more than the same arrangement read again
 * scatters? Null without repeats, or with too few arrangements to bend.
 */
export function lackOfFit(moments: readonly number[], { stateTangents }: LineFit): FTest | null {
  const groups = groupsOf(moments);
  const pureDof = moments.length - groups.length;
  const lackDof = groups.length - 2;
  if (pureDof < 1 || lackDof < 1) return null;
  const { residualDeviation, degreesOfFreedom } = straightLine(moments, stateTangents);
  const rest = residualDeviation ** 2 * degreesOfFreedom;
  let pure = 0;
  for (const group of groups) {
    const mean = group.reduce((sum, i) => sum + stateTangents[i]!, 0) / group.length;
    for (const i of group) pure += (stateTangents[i]! - mean) ** 2;
  }
  const scale = stateTangents.reduce((sum, one) => sum + one * one, 0);
  if (pure <= 1e-20 * scale) return null;
  return fTest(Math.max(0, rest - pure) / lackDof / (pure / pureDof), lackDof, pureDof);
}

/** States of one arrangement together, by their places. */
export function groupsOf(moments: readonly number[]): number[][] {
  const scale = Math.max(...moments.map(Math.abs));
  const groups: number[][] = [];
  moments.forEach((moment, i) => {
    const group = groups.find(
      ([first]) => Math.abs(moments[first!]! - moment) <= SAME_MOMENT_SHARE * scale,
    );
    if (group === undefined) groups.push([i]);
    else group.push(i);
  });
  return groups;
}
