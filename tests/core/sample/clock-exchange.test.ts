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
    stepped.resume({ fromS: 0, toS: 0, rate: 1, uncertaintyS: 0.001, rateUncertainty: 0 });
    stepped.add({ sentStationS: 500, receivedReceiverS: 4000, earlierReply: null });
    expect(linearMapTime(stepped.renew()!, 500)).toBeCloseTo(4000, 0);
  });

  it('knows no more than a tenth of a second while nothing has come back', () => {
    const pairing = new ClockExchange();
    pairing.add({ sentStationS: 0, receivedReceiverS: 50, earlierReply: null });
    expect(pairing.map).toMatchObject({ toS: 49.9, uncertaintyS: 0.1 / Math.sqrt(3) });
  });

  /** Exchanges every 2 s in which one of the clocks jumps at station time 200. */
  function jumping(jump: { stationS?: number; receiverS?: number }) {
    const random = randomFromSeed(8);
    const delay = () => 0.002 + 0.01 * random() ** 3;
    const shiftS = (jump.receiverS ?? 0) - (jump.stationS ?? 0);
    let earlierReply: { repliedReceiverS: number; returnedStationS: number } | null = null;
    return Array.from({ length: 200 }, (_, k) => {
      const before = k < 100;
      const stationS = 2 * k + (before ? 0 : (jump.stationS ?? 0));
      const offsetS = 77 + (before ? 0 : shiftS);
      const receivedReceiverS = stationS + offsetS + delay();
      const exchange = { sentStationS: stationS, receivedReceiverS, earlierReply };
      const repliedReceiverS = receivedReceiverS + 1e-4;
      earlierReply = {
        repliedReceiverS,
        returnedStationS: repliedReceiverS - offsetS + delay(),
      };
      return { exchange, stationS, receiverS: stationS + offsetS, k };
    });
  }

  it.each([
    ['the station was asleep and the receiver not', { receiverS: 600 }],
    ['the receiver was asleep and the station not', { receiverS: -600 }],
    ['the receiver was asleep for two seconds', { receiverS: -2 }],
  ])('holds no exchange of before against one of after: %s', (_, jump) => {
    const pairing = new ClockExchange();
    const found: number[] = [];
    for (const { exchange, stationS, receiverS, k } of jumping(jump)) {
      if (pairing.add(exchange) === 'jumped') found.push(k);
      if (k % 5 === 0 || found.at(-1) === k) pairing.renew();
      const map = pairing.map!;
      const errorS = linearMapTime(map, stationS) - receiverS;
      // One exchange later the way back shows it too.
      if (k < 100 || k > 101) expect(Math.abs(errorS)).toBeLessThan(4 * map.uncertaintyS);
    }
    expect(found).toHaveLength(1);
    expect(found[0]).toBeLessThanOrEqual(101);
    expect(pairing.map!.uncertaintyS).toBeLessThan(0.01);
  });

  it('forgets what was before a jump it is told of, and then knows only what came both ways', () => {
    const pairing = new ClockExchange();
    const all = jumping({ receiverS: 600 });
    for (const { exchange } of all.slice(0, 100)) pairing.add(exchange);
    pairing.renew();
    pairing.forgetBefore(200);
    expect(pairing.knowsBothWays).toBe(false);
    pairing.add(all[100]!.exchange);
    expect(pairing.knowsBothWays).toBe(false);
    pairing.add(all[101]!.exchange);
    expect(pairing.knowsBothWays).toBe(true);
    const errorS = linearMapTime(pairing.renew()!, all[101]!.stationS) - all[101]!.receiverS;
    expect(Math.abs(errorS)).toBeLessThan(0.02);
  });

  it('is as unsure as the two ways leave it, however slow the line', () => {
    const pairing = new ClockExchange();
    pairing.add({ sentStationS: 0, receivedReceiverS: 54, earlierReply: null });
    pairing.add({
      sentStationS: 9,
      receivedReceiverS: 63,
      earlierReply: { repliedReceiverS: 54, returnedStationS: 8 },
    });
    // The offset is anything from 46 to 54 s.
    expect(pairing.renew()!.uncertaintyS).toBeGreaterThan(8 / Math.sqrt(12) - 1e-6);
  });

  it('says how well it knows the rate', () => {
    const pairing = new ClockExchange();
    let count = 0;
    for (const { exchange } of exchanges({ offsetS: 7, ppm: 80, delayS: 0.004, seed: 3 })) {
      pairing.add(exchange);
      const { rate, rateUncertainty } = pairing.renew()!;
      expect(Math.abs(rate - 1 - 80e-6)).toBeLessThan(4 * rateUncertainty);
      if (++count === 1) expect(rateUncertainty).toBeGreaterThan(100e-6);
      if (count > 90) expect(rateUncertainty).toBeLessThan(150e-6);
      if (count > 200) return;
    }
  });
});
