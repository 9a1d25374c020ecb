import type { DisturbanceSwitches } from '#core/record/line.ts';
import { marramMountings, marramTest } from '#device/emulated/marram.ts';
import { createSampleEntrance } from '#device/emulated/sample-entrance.ts';
import { ALL_QUIET, createSimulatedWorld } from '#device/emulated/simulated-world.ts';
import { sineBarCertificates } from '#device/emulated/sine-bar.ts';
import type { DaySource } from './day.ts';

/** A day at sample level: no processor, no bus; minutes of it in well under a second. */
export function sampleSource(
  seed: number,
  disturbances: DisturbanceSwitches = ALL_QUIET,
  fromState = 0,
): DaySource {
  const world = createSimulatedWorld({ seed });
  const entrance = createSampleEntrance({ seed, world });
  return {
    test: marramTest(),
    simulation: { seed, paceAsked: 1, paceHeld: 1, disturbances, truth: world.status(0).truth },
    mountings: marramMountings(),
    certificates: sineBarCertificates(seed),
    advance: (untilS) => entrance.advance(untilS),
    order(atS, session) {
      const last = session.states.at(-1)!;
      const places = { ...session.weightsAt };
      for (const move of last.moves) places[move.weight] = move.to;
      // Just after what has been read already: the world is not rewound.
      world.command(atS + 0.01, {
        state: last.state,
        weights: Object.entries(places).map(([weight, place]) => ({ weight, ...place })),
        disturbances: last.state < fromState ? ALL_QUIET : disturbances,
      });
    },
    carrying: (atS) => world.status(atS).carrying.length > 0,
  };
}
