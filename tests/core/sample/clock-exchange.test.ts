import { describe, expect, it } from 'vitest';
import { ClockExchange } from '#core/sample/clock-exchange.ts';
import { linearMapTime } from '#core/time/linear-map.ts';
import { randomFromSeed } from '#tests/support/seeded.ts';

/** Exchanges of two clocks with a known offset and rate over a line with random delays. */
function* exchanges(truth: { offsetS: number; ppm: number; delayS: number; seed: number }) {
  const random = randomFromSeed(truth.seed);
  const receiverOf = (stationS: number) => stationS * (1 + truth.ppm * 1e-6) + truth.offsetS;
  const stationOf = (receiverS: number) => (receiverS - truth.offsetS) / (1 + truth.ppm * 1e-6);
  const delay = () => truth.delayS * (0.2 + random() ** 3 * 5);
  let earlierReply = null;
  for (let stationS = 5; ; stationS += 2) {
    const receivedReceiverS = receiverOf(stationS) + delay();
    yield { exchange: { sentStationS: stationS, receivedReceiverS, earlierReply }, receiverOf };
    const repliedReceiverS = receivedReceiverS + 1e-4;
    earlierReply = { repliedReceiverS, returnedStationS: stationOf(repliedReceiverS + delay()) };
  }
}

describe('pairing two clocks by exchange', () => {
  it.each([1, 2, 3, 4])('comes within its own uncertainty of the truth (seed %i)', (seed) => {
    const pairing = new ClockExchange();
    let count = 0;
    for (const { exchange, receiverOf } of exchanges({
      offsetS: 77,
      ppm: 80,
      delayS: 0.004,
      seed,
    })) {
      pairing.add(exchange);
      count += 1;
      if (count % 15 === 0) pairing.renew();
      if (count < 90) continue;
      const map = pairing.map!;
      const errorS = linearMapTime(map, exchange.sentStationS) - receiverOf(exchange.sentStationS);
      expect(Math.abs(errorS)).toBeLessThan(4 * map.uncertaintyS + 1e-4);
      expect(map.uncertaintyS).toBeLessThan(0.01);
      if (count > 400) return;
    }
  });

  it('never makes time jump by bending, and starts afresh when a clock was stepped', () => {
    const pairing = new ClockExchange();
    const truth = { offsetS: 10, ppm: 0, delayS: 0.002, seed: 5 };
    let last: { atS: number; toS: number } | null = null;
    let count = 0;
    for (const { exchange } of exchanges(truth)) {
      pairing.add(exchange);
      const map = pairing.renew()!;
      const toS = linearMapTime(map, exchange.sentStationS);
      // Until there is a base for a rate, evidence that is far better steps it.
      if (last !== null && count > 15)
        expect(Math.abs(toS - last.toS - (exchange.sentStationS - last.atS))).toBeLessThan(2e-3);
      last = { atS: exchange.sentStationS, toS };
      if (++count > 60) break;
    }
    pairing.add({ sentStationS: 500, receivedReceiverS: 4000, earlierReply: null });
    const stepped = new ClockExchange();
    stepped.resume({ fromS: 0, toS: 0, rate: 1, uncertaintyS: 0.001 });
    stepped.add({ sentStationS: 500, receivedReceiverS: 4000, earlierReply: null });
    expect(linearMapTime(stepped.renew()!, 500)).toBeCloseTo(4000, 0);
  });

  it('knows no more than a tenth of a second while nothing has come back', () => {
    const pairing = new ClockExchange();
    pairing.add({ sentStationS: 0, receivedReceiverS: 50, earlierReply: null });
    expect(pairing.map).toMatchObject({ toS: 49.9, uncertaintyS: 0.1 / Math.sqrt(3) });
  });
});
