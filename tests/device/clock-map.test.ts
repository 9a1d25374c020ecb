import { describe, expect, it } from 'vitest';
import { ClockMap } from '#device/clock-map.ts';

/** Small seeded generator (mulberry32), so that a failing case can be had again. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * A board whose rate is off by `ppm` and wanders by `wanderPpm` over ten minutes, its scans
 * delayed by an exponential delay and now and then by a burst, as a busy machine does.
 */
function follow(options: {
  ppm: number;
  wanderPpm: number;
  delayS: number;
  seed: number;
  hours: number;
}) {
  const random = randomFrom(options.seed);
  const map = new ClockMap();
  const errors: { errorS: number; uncertaintyS: number; atS: number }[] = [];
  let boardS = 4000;
  let mapping = map.mapping();
  const periodS = 0.02;
  for (let trueS = 0; trueS < options.hours * 3600; trueS += periodS) {
    const wander = options.wanderPpm * Math.sin((2 * Math.PI * trueS) / 600);
    boardS += periodS * (1 + (options.ppm + wander) * 1e-6);
    const delayS = -options.delayS * Math.log(1 - random()) + (random() < 0.01 ? 0.03 : 0);
    map.add(boardS * 1e6, trueS + periodS + delayS);
    if (mapping !== null && Math.abs((trueS % 1) - 0.5) < periodS / 2) {
      const mapped = mapping.stationS + (boardS * 1e6 - mapping.boardUs) * 1e-6 * mapping.rate;
      errors.push({
        errorS: mapped - (trueS + periodS),
        uncertaintyS: mapping.uncertaintyS,
        atS: trueS,
      });
    }
    if (trueS % 10 < periodS && trueS > 0.5) mapping = map.mapping();
  }
  return errors;
}

describe('board time to station time', () => {
  it.each([
    { ppm: 5000, wanderPpm: 200 },
    { ppm: -5000, wanderPpm: 200 },
    { ppm: 40, wanderPpm: 0 },
  ])(
    'keeps its own uncertainty at $ppm ppm with $wanderPpm ppm of wander',
    ({ ppm, wanderPpm }) => {
      const errors = follow({ ppm, wanderPpm, delayS: 0.002, seed: 11, hours: 0.5 });
      const settled = errors.filter(({ atS }) => atS > 60);
      const outside = settled.filter(
        ({ errorS, uncertaintyS }) => Math.abs(errorS) > 2 * uncertaintyS + 0.001,
      );
      expect(settled.length).toBeGreaterThan(1000);
      expect(outside.length / settled.length).toBeLessThan(0.05);
      expect(Math.max(...settled.map(({ errorS }) => Math.abs(errorS)))).toBeLessThan(0.01);
      // Before a rate is known the map is worse, and says so.
      const early = errors.filter(({ atS }) => atS <= 20);
      expect(early.every(({ errorS, uncertaintyS }) => Math.abs(errorS) < 2.5 * uncertaintyS)).toBe(
        true,
      );
    },
  );

  it('says nothing from a handful of scans', () => {
    const map = new ClockMap();
    for (let k = 0; k < 19; k += 1) map.add(k * 20_000, k * 0.02);
    expect(map.mapping()).toBeNull();
  });

  it('does not believe a rate no resonator has', () => {
    const map = new ClockMap();
    for (let k = 0; k < 1500; k += 1) map.add(k * 20_000, k * 0.02 * 1.02);
    const mapping = map.mapping();
    expect(mapping?.rate).toBe(1);
    expect(mapping?.uncertaintyS).toBeGreaterThan(0.03);
  });

  describe('when the station was asleep and its clock stood still', () => {
    /** The board goes on at 3000 ppm; the station sleeps `asleepS` after `awakeS` of its time. */
    function sleeping(asleepS: number, awakeS = 100) {
      const random = randomFrom(5);
      const map = new ClockMap();
      const wokeS = awakeS;
      const scans: { boardUs: number; stationS: number; asleep: boolean }[] = [];
      for (let trueS = 0; trueS < awakeS + asleepS + 90; trueS += 0.02) {
        const boardUs = Math.round(trueS * 1.003e6);
        if (trueS > awakeS && trueS < awakeS + asleepS) continue;
        const stationS = trueS < awakeS ? trueS : trueS - asleepS;
        const delayS = -0.002 * Math.log(1 - random());
        scans.push({ boardUs, stationS, asleep: map.add(boardUs, stationS + delayS) === 'jumped' });
      }
      return { map, scans, wokeS };
    }

    it.each([1, 20, 59, 600])('begins anew at the scan that shows it (%i s)', (asleepS) => {
      const { scans, wokeS } = sleeping(asleepS);
      const found = scans.filter(({ asleep }) => asleep);
      expect(found).toHaveLength(1);
      expect(found[0]!.stationS - wokeS).toBeLessThan(0.1);
    });

    it('never mixes arrivals from before and after, and says when the clock jumped', () => {
      const random = randomFrom(6);
      const map = new ClockMap();
      let wrong = 0;
      let mapped = 0;
      for (let k = 0; k < 230 * 50; k += 1) {
        const trueS = k / 50;
        if (trueS >= 100 && trueS < 140) continue;
        const stationS = trueS < 100 ? trueS : trueS - 40;
        const found = map.add(trueS * 1.003e6, stationS - 0.002 * Math.log(1 - random()));
        const mapping = k % 20 === 0 || found === 'jumped' ? map.mapping() : null;
        if (mapping === null) continue;
        mapped += 1;
        const errorS = mapping.stationS - stationS;
        if (Math.abs(errorS) > 3 * mapping.uncertaintyS + 0.001) wrong += 1;
        if (trueS < 100) expect(mapping.stationJumpedS).toBeUndefined();
        else expect(mapping.stationJumpedS).toBeCloseTo(100, 1);
      }
      expect(mapped).toBeGreaterThan(400);
      expect(wrong).toBe(0);
      expect(map.mapping()!.uncertaintyS).toBeLessThan(0.005);
    });

    it('is sure of little while arrivals all come later than before, until it is a new clock', () => {
      const map = new ClockMap();
      for (let trueS = 0; trueS < 60; trueS += 0.02) map.add(trueS * 1e6, trueS);
      expect(map.mapping()!.uncertaintyS).toBeLessThan(0.01);
      let jumped = 0;
      for (let trueS = 60; trueS < 80; trueS += 0.02) {
        if (map.add(trueS * 1e6, trueS + 2) === 'jumped') jumped += 1;
        const mapping = map.mapping()!;
        if (trueS > 61.5)
          expect(Math.abs(mapping.stationS - trueS - 2)).toBeLessThan(3 * mapping.uncertaintyS);
      }
      expect(jumped).toBe(1);
      expect(map.mapping()!.uncertaintyS).toBeLessThan(0.1);
    });

    it('takes a stall and the burst after it for no jump', () => {
      const map = new ClockMap();
      for (let trueS = 0; trueS < 60; trueS += 0.02) map.add(trueS * 1e6, trueS);
      map.mapping();
      // Eight seconds in which the machine reads nothing, then everything at once.
      for (let trueS = 60; trueS < 68; trueS += 0.02) expect(map.add(trueS * 1e6, 68)).toBe('same');
      for (let trueS = 68; trueS < 90; trueS += 0.02)
        expect(map.add(trueS * 1e6, trueS)).toBe('same');
      expect(map.mapping()!.stationS).toBeCloseTo(90, 1);
    });
  });
});
