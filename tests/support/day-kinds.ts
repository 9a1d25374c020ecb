import type { DisturbanceSwitches } from '#core/record/line.ts';
import { ALL_QUIET } from '#device/emulated/simulated-world.ts';

/** Kinds of day whose GM must be covered by its own interval. A fouled line is not among them: it is trouble to be seen. */
export const DAY_KINDS: readonly {
  readonly name: string;
  readonly disturbances: DisturbanceSwitches;
}[] = [
  { name: 'quiet', disturbances: ALL_QUIET },
  { name: 'wind', disturbances: { ...ALL_QUIET, wind: true } },
  { name: 'wind and wakes', disturbances: { ...ALL_QUIET, wind: true, wakes: true } },
  { name: 'walking', disturbances: { ...ALL_QUIET, walking: true } },
  { name: 'wind and gusts', disturbances: { ...ALL_QUIET, wind: true, gusts: true } },
];

/** Of five days two are quiet, as days chosen for an inclining test are. */
const ROTATION = [0, 1, 0, 2, 3, 0, 1, 0, 2, 4] as const;

export function kindOfDay(seed: number): (typeof DAY_KINDS)[number] {
  return DAY_KINDS[ROTATION[seed % ROTATION.length]!]!;
}
