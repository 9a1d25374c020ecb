import { expect, test } from 'vitest';
import { pressurePaFromCounts } from '#core/part/abp2.ts';
import { pressurePaFromRatio } from '#core/part/mpx5010.ts';
import { pressurePaOfHeight } from '#core/part/water-column.ts';
import {
  createPressureElement,
  createRatiometricLeg,
} from '#device/emulated/elements/pressure-leg.ts';

const world = {
  heelDeg: 0,
  specificForceG: () => {
    const heel = (world.heelDeg * Math.PI) / 180;
    return { xG: 0, yG: Math.sin(heel), zG: Math.cos(heel) };
  },
  legLevelMm: () => 400,
  temperatureC: () => 15,
};
const of = { world, instrument: 'tube', leg: 'port' as const, seed: 3 };
const truePa = () => pressurePaOfHeight(400 * Math.cos((world.heelDeg * Math.PI) / 180));

test('an ABP2 is within its error band, at every lean of the leg', () => {
  const element = createPressureElement(of, [0, 6000]);
  for (world.heelDeg of [0, 20]) {
    const told = pressurePaFromCounts(element.read(1).pressureCounts, [0, 6000]);
    expect(Math.abs(told - truePa())).toBeLessThan(0.015 * 6000 + 5);
    expect(told).not.toBe(truePa());
  }
});

test('the output of an MPX5010 follows its supply, so that their ratio does not', () => {
  world.heelDeg = 0;
  const leg = createRatiometricLeg(of);
  const ratios = [0, 100, 200, 300].map((timeS) => leg.volts(0, timeS) / leg.volts(1, timeS));
  const supplies = [0, 100, 200, 300].map((timeS) => leg.volts(1, timeS));
  expect(Math.max(...supplies) - Math.min(...supplies)).toBeGreaterThan(0.005);
  for (const ratio of ratios) {
    const told = pressurePaFromRatio(ratio);
    expect(Math.abs(told - truePa())).toBeLessThan(0.03 * truePa() + 210);
    expect(Math.abs(told - pressurePaFromRatio(ratios[0]!))).toBeLessThan(8);
  }
});
