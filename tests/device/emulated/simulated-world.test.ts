import { describe, expect, it } from 'vitest';
import { CARRY_S } from '#device/emulated/carrying.ts';
import { MARRAM_TUBE, marramReality, marramTest } from '#device/emulated/marram.ts';
import { ALL_QUIET, createSimulatedWorld } from '#device/emulated/simulated-world.ts';
import { restingHeelRad } from '#device/emulated/vessel.ts';

const atMarks = marramTest().weights.map(({ weight, at }) => ({ weight, ...at }));
const moved = (weight: string, yM: number) =>
  atMarks.map((one) => (one.weight === weight ? { ...one, yM } : one));
const order = (state: number, weights = atMarks, disturbances = ALL_QUIET) => ({
  state,
  weights,
  disturbances,
});
const ALL_ON = { wind: true, gusts: true, wakes: true, walking: true, snaggedLine: true };

/** What is felt every `everyS` until `untilS`, orders given as their time comes. */
function felt(
  seed: number,
  everyS: number,
  untilS: number,
  orders: [number, ReturnType<typeof order>][],
) {
  const world = createSimulatedWorld({ seed });
  const waiting = [...orders];
  const heels = new Map<number, number>();
  for (let step = 0; step * everyS <= untilS; step++) {
    const timeS = step * everyS;
    while (waiting[0] !== undefined && waiting[0][0] <= timeS) {
      const [atS, what] = waiting.shift()!;
      world.command(atS, what);
    }
    heels.set(Math.round(timeS * 1000), world.specificForceG('aft', timeS).yG);
  }
  return heels;
}

describe('the simulated world', () => {
  const orders: [number, ReturnType<typeof order>][] = [
    [0, order(0, atMarks, ALL_ON)],
    [20, order(1, moved('A', 2.1), ALL_ON)],
    [60, order(1, moved('A', 2.1), ALL_QUIET)],
  ];

  it('is the same for the same seed and orders, however often it is asked', () => {
    const often = felt(3, 0.005, 90, orders);
    const seldom = felt(3, 1, 90, orders);
    for (const [timeMs, heel] of seldom) expect(often.get(timeMs)).toBe(heel);
    const other = felt(4, 1, 90, orders);
    expect(other.get(90_000)).not.toBe(seldom.get(90_000));
  });

  it('refuses an order for a time already shown, and a time it has forgotten', () => {
    const world = createSimulatedWorld({ seed: 1 });
    world.specificForceG('fore', 10);
    expect(() => world.command(9, order(0))).toThrow(RangeError);
    world.command(10, order(0));
    expect(() => world.command(9.9, order(0))).toThrow(RangeError);
    world.specificForceG('fore', 9);
    world.specificForceG('fore', 20);
    expect(() => world.specificForceG('fore', 10)).toThrow(RangeError);
    expect(() => world.specificForceG('fore', -1)).toThrow(RangeError);
    expect(() => world.specificForceG('nobody', 20)).toThrow(RangeError);
    expect(() => world.legLevelMm('fore', 'port', 20)).toThrow(RangeError);
  });

  it('heels as the exact equilibrium says once she has come to rest', () => {
    const seed = 6;
    const reality = marramReality(seed);
    const world = createSimulatedWorld({ seed });
    world.command(0, order(1, moved('B', 2.1)));
    world.specificForceG('aft', 90);
    let sum = 0;
    const reads = 9000;
    for (let k = 0; k < reads; k++) sum += Math.asin(world.specificForceG('aft', 90 + k * 0.05).yG);
    const massT = reality.massT['B']!;
    const momentTM = massT * (reality.realYM(2.1) - reality.realYM(-2.1));
    const resting = restingHeelRad(reality.form, { transverseTM: momentTM, verticalTM: 0 });
    // Light air and swell over 450 s leave a few thousandths of a degree.
    expect(Math.abs(sum / reads - resting) * (180 / Math.PI)).toBeLessThan(0.015);
  });

  it('returns to zero when everything is shifted back', () => {
    const seed = 6;
    const mean = (untilS: number, orders: [number, ReturnType<typeof order>][]) => {
      const heels = [...felt(seed, 0.05, untilS, orders).values()].slice(-4000);
      return heels.reduce((all, one) => all + one, 0) / heels.length;
    };
    const there = mean(400, [
      [10, order(1, moved('A', 2.1))],
      [100, order(2)],
    ]);
    const never = mean(400, []);
    expect(Math.abs(there - never) * (180 / Math.PI)).toBeLessThan(0.0005);
  });

  it('shows in the tube what the inclinometers show, slowly', () => {
    const world = createSimulatedWorld({ seed: 2 });
    world.command(0, order(1, moved('C', -2.1)));
    let tube = 0;
    let chip = 0;
    for (let k = 0; k < 4000; k++) {
      const timeS = 120 + k * 0.05;
      const levels = (leg: 'port' | 'starboard') => world.legLevelMm('tube', leg, timeS);
      tube += Math.atan((levels('starboard') - levels('port')) / (MARRAM_TUBE.spanM * 1000));
      chip += Math.asin(world.specificForceG('aft', timeS).yG);
    }
    expect(Math.abs((tube - chip) / 4000) * (180 / Math.PI)).toBeLessThan(0.006);
    expect((tube / 4000) * (180 / Math.PI)).toBeLessThan(-1.2);
  });

  it('magnifies rolling with the height over the roll axis: theta - h/g theta"', () => {
    const world = createSimulatedWorld({ seed: 2 });
    world.command(0, order(1, moved('A', 2.1)));
    const fore: number[] = [];
    const aft: number[] = [];
    for (let k = 0; k < 2000; k++) {
      fore.push(world.specificForceG('fore', 30 + k * 0.05).yG);
      aft.push(world.specificForceG('aft', 30 + k * 0.05).yG);
    }
    const spread = (values: number[]) => Math.max(...values) - Math.min(...values);
    // Harmonic roll of 4.75 s: 1 + h omega2/g = 1.285 at 1.6 m, 1.071 at 0.4 m.
    const ratio = spread(fore) / spread(aft);
    expect(ratio).toBeGreaterThan(1.1);
    expect(ratio).toBeLessThan(1.3);
  });

  it('says what is being carried and which state is down', () => {
    const world = createSimulatedWorld({ seed: 2 });
    expect(world.status(0)).toMatchObject({ carrying: [], settledState: 0 });
    world.command(5, order(3, moved('D', -2.1)));
    expect(world.status(6)).toMatchObject({ carrying: ['D'], settledState: 0 });
    expect(world.status(5.1 + CARRY_S)).toMatchObject({ carrying: [], settledState: 3 });
    expect(world.status(0).truth.gmFluidM).toBeCloseTo(0.94, 1);
  });

  it('warms the boxes slowly and each by itself', () => {
    const world = createSimulatedWorld({ seed: 2 });
    const warm = world.temperatureC('fore', 2400);
    expect(warm).toBeGreaterThan(8);
    expect(warm).toBeLessThan(20);
    expect(Math.abs(world.temperatureC('fore', 2410) - warm)).toBeLessThan(0.05);
    expect(world.temperatureC('aft', 2400)).not.toBe(warm);
  });
});
