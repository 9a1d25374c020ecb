import { gaussRule } from '../hull/gauss.ts';
import type { Levers } from './evidence.ts';
import { firstFall, firstRise } from './lever-features.ts';

/** A heeling moment over displacement as a lever, against the righting levers of one side. */
export interface Against {
  readonly levers: Levers;
  /** Heeling lever at a heel, m. */
  armM(heelRad: number): number;
}

const RULE = gaussRule(8);
const PANELS = 8;

/** Area under a heeling lever, m rad; smooth levers to rounding, a broken line nearly. */
export function armAreaMRad(
  armM: (heelRad: number) => number,
  fromRad: number,
  toRad: number,
): number {
  const width = (toRad - fromRad) / PANELS;
  let sum = 0;
  for (let panel = 0; panel < PANELS; panel++) {
    for (const [k, at] of RULE.at.entries()) {
      sum += RULE.weight[k]! * armM(fromRad + (panel + at) * width);
    }
  }
  return sum * width;
}

const netOf = (against: Against) => (heelRad: number) =>
  against.levers.leverM(heelRad) - against.armM(heelRad);

/** Where she rests under the moment, rad from upright; null where she does not as far as levers go. */
export function restUnderRad(against: Against): number | null {
  return firstRise(netOf(against), 0, against.levers.mostHeelRad);
}

/** Area left over the heeling lever between two heels, m rad. */
export function netAreaMRad(against: Against, fromRad: number, toRad: number): number {
  return against.levers.areaMRad(fromRad, toRad) - armAreaMRad(against.armM, fromRad, toRad);
}

/** Where the righting lever falls below the heeling lever again, within the levers; else null. */
export function secondMeetingRad(against: Against, restRad: number): number | null {
  return firstFall(netOf(against), restRad, against.levers.mostHeelRad);
}
