import { createRandom } from '#core/numerics/random.ts';
import { createWatch } from '#core/steadiness/watch.ts';
import { simulatedHeel } from '#tests/support/simulated-heel.ts';

const INSTRUMENTS = ['fore', 'aft', 'tube'] as const;
const STATES = 8;
const STATE_S = 150;
const ROUNDS = 3;

/**
 * Microseconds the steadiness watch takes for a smoothed sample of one channel, learning and
 * readings included: a day of states of three instruments, the best of a few rounds.
 */
export function measureWatchCost(): number {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round++) {
    const watch = createWatch({
      instruments: INSTRUMENTS.map((instrument) => ({
        instrument,
        label: instrument,
        settlingS: instrument === 'tube' ? 33 : 1,
        refused: null,
      })),
    });
    const random = createRandom(round, 'watch cost');
    const roll = simulatedHeel({
      seed: round,
      lengthS: STATES * STATE_S,
      noiseDeg: 0,
      slowDeg: 0.003,
    });
    const begunMs = performance.now();
    let samples = 0;
    for (let state = 0; state < STATES; state++) {
      const fromS = state * STATE_S;
      watch.beginState(fromS);
      for (let tenth = 1; tenth <= STATE_S * 10; tenth++) {
        const atS = fromS + tenth / 10;
        const rollDeg = roll[state * STATE_S * 10 + tenth - 1]!;
        for (const instrument of INSTRUMENTS) {
          watch.push(instrument, atS, state + rollDeg + random.normal(0.003));
          samples += 1;
        }
      }
      const { joined } = watch.picture(fromS + STATE_S);
      if (joined.readable) watch.takeReading(fromS + STATE_S);
    }
    best = Math.min(best, (1000 * (performance.now() - begunMs)) / samples);
  }
  return best;
}
