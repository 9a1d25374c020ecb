import type { DisturbanceSwitches } from '#core/record/line.ts';
import { ALL_QUIET } from '#device/emulated/simulated-world.ts';

/** Kinds of day whose GM must be covered by its own interval. A fouled line is not among them: it is trouble to be seen. */
export const DAY_KINDS: readonly {
  readonly name: string;
  readonly disturbances: DisturbanceSwitches;
  /** People hold still for the zero, by which the watch learns what her still rolling is. */
  readonly fromState: number;
  /** So rough that the watch may offer no reading: better none than a wrong one. */
  readonly mayBeGivenUp: boolean;
}[] = [
  { name: 'quiet', disturbances: ALL_QUIET, fromState: 0, mayBeGivenUp: false },
  { name: 'wind', disturbances: { ...ALL_QUIET, wind: true }, fromState: 0, mayBeGivenUp: false },
  {
    name: 'wind and wakes',
    disturbances: { ...ALL_QUIET, wind: true, wakes: true },
    fromState: 0,
    mayBeGivenUp: false,
  },
  {
    name: 'walking',
    disturbances: { ...ALL_QUIET, walking: true },
    fromState: 1,
    mayBeGivenUp: true,
  },
  {
    name: 'wind and gusts',
    disturbances: { ...ALL_QUIET, wind: true, gusts: true },
    fromState: 0,
    mayBeGivenUp: true,
  },
];

/** Of five days two are quiet, as days chosen for an inclining test are. */
const ROTATION = [0, 1, 0, 2, 3, 0, 1, 0, 2, 4] as const;

export function kindOfDay(seed: number): (typeof DAY_KINDS)[number] {
  return DAY_KINDS[ROTATION[seed % ROTATION.length]!]!;
}
