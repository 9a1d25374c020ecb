import { countsFromPressurePa, countsFromTemperatureC } from '#core/part/abp2.ts';
import { voltsFromLevelMm } from '#core/part/current-loop-level.ts';
import { voltsFromPressurePa } from '#core/part/mpx5010.ts';
import { pressurePaOfHeight } from '#core/part/water-column.ts';
import type { Mounting } from '#core/sample/certificate.ts';
import { Abp2 } from '#device/emulated/chips/abp2.ts';
import { Ads1115 } from '#device/emulated/chips/ads1115.ts';
import { Adxl355 } from '#device/emulated/chips/adxl355.ts';
import { Iis2iclx } from '#device/emulated/chips/iis2iclx.ts';
import { Lsm6dso } from '#device/emulated/chips/lsm6dso.ts';
import { createInclinometerElement } from '#device/emulated/elements/inclinometer.ts';
import {
  ADXL355,
  IIS2ICLX,
  LSM6DSO,
  type PartCharacter,
} from '#device/emulated/elements/part-character.ts';
import { type ChipCase, chipUnderTest, type StillVessel } from './chip-under-test.ts';
import { SERIAL_UNDER_TEST } from './serial-under-test.ts';
import type { UnderTest } from './under-test.ts';

const SPAN_M = 8;
const RANGE_PA = [0, 6000] as const;
const inclinometer: Mounting = {
  instrument: 'one',
  label: 'One',
  kind: 'inclinometer',
  sign: 1,
  spanM: null,
  heightOverRollAxisM: 0,
  settlingS: 1,
};
const tube: Mounting = { ...inclinometer, kind: 'water-tube', spanM: SPAN_M };

/** A part without errors of its own, but with its noise. */
function perfect(part: PartCharacter, world: StillVessel) {
  const character = {
    ...part,
    sensitivityTolerance: 0,
    zeroToleranceG: 0,
    zeroPerKG: 0,
    sensitivityPerK: 0,
  };
  return createInclinometerElement({ world, instrument: 'one', seed: 5, part: character });
}

const degreesOf = (sine: number) => (Math.asin(sine) * 180) / Math.PI;
const degreesOfMm = (mm: number) => (Math.atan(mm / (1000 * SPAN_M)) * 180) / Math.PI;

/** Pressure at the foot of a leg that leans with the vessel. */
function footPa(vessel: StillVessel, leg: 'port' | 'starboard', timeS: number): number {
  const upright = Math.cos((vessel.heelDeg * Math.PI) / 180);
  return pressurePaOfHeight(vessel.legLevelMm('one', leg, timeS) * upright);
}

const LEGS = ['port', 'starboard'] as const;

const CHIPS: readonly ChipCase[] = [
  {
    part: 'iis2iclx',
    mounting: inclinometer,
    // DS13005 Rev 7, Table 2: 0.015 mg a count.
    stepDeg: degreesOf(15e-6),
    toleranceDeg: 0.002,
    rangeDeg: 25,
    addresses: [0x6a],
    twins: (vessel) => [new Iis2iclx(0x6a, perfect(IIS2ICLX, vessel))],
    saturate: (vessel) => {
      vessel.excess = 20;
    },
  },
  {
    part: 'adxl355',
    mounting: inclinometer,
    // Rev. 0, Table 2: 256 000 counts a g.
    stepDeg: degreesOf(1 / 256_000),
    toleranceDeg: 0.004,
    rangeDeg: 60,
    addresses: [0x1d],
    twins: (vessel) => [new Adxl355(0x1d, perfect(ADXL355, vessel))],
    saturate: (vessel) => {
      vessel.excess = 100;
    },
  },
  {
    part: 'lsm6dso',
    mounting: inclinometer,
    // lsm6dso-pid: 0.061 mg a count.
    stepDeg: degreesOf(61e-6),
    toleranceDeg: 0.006,
    rangeDeg: 60,
    addresses: [0x6b],
    twins: (vessel) => [new Lsm6dso(0x6b, perfect(LSM6DSO, vessel))],
    saturate: (vessel) => {
      vessel.excess = 100;
    },
  },
  {
    part: 'ads1115',
    mounting: tube,
    // 1000 mm over 16 mA, 150 ohm, 125 uV a count.
    stepDeg: degreesOfMm((125e-6 / 150 / 0.016) * 1000),
    toleranceDeg: 0.0005,
    rangeDeg: 5,
    addresses: [0x48],
    twins: (vessel) => [
      new Ads1115(0x48, {
        volts: (input, timeS) => voltsFromLevelMm(vessel.legLevelMm('one', LEGS[input]!, timeS)),
      }),
    ],
    saturate: (vessel) => {
      vessel.excess = 10;
    },
    called: {
      'stuck-value': { cannot: 'water at rest may repeat a coarse count for minutes' },
    },
  },
  {
    part: 'mpx5010',
    mounting: tube,
    // 450 mV/kPa, 187.5 uV a count, 9.789 Pa a millimetre.
    stepDeg: degreesOfMm(187.5e-6 / 0.45e-3 / 9.789),
    toleranceDeg: 0.0005,
    rangeDeg: 5,
    addresses: [0x48, 0x49],
    twins: (vessel) =>
      LEGS.map(
        (leg, k) =>
          new Ads1115(k === 0 ? 0x48 : 0x49, {
            // A supply that wanders by 2 % must not show.
            volts(input, timeS) {
              const supplyV = 5 + 0.1 * Math.sin(timeS / 3);
              return input === 0
                ? voltsFromPressurePa(footPa(vessel, leg, timeS), supplyV)
                : supplyV;
            },
          }),
      ),
    saturate: (vessel) => {
      vessel.excess = 10;
    },
    called: {
      'stuck-value': { cannot: 'water at rest may repeat a coarse count for minutes' },
    },
  },
  {
    part: 'abp2',
    mounting: { ...tube, asBuilt: { pressureRangePa: [...RANGE_PA] } },
    // 6 kPa over 80 % of 2^24.
    stepDeg: degreesOfMm(6000 / (0.8 * 2 ** 24) / 9.789),
    toleranceDeg: 0.0005,
    rangeDeg: 3,
    addresses: [0x28, 0x38],
    twins: (vessel) =>
      LEGS.map(
        (leg, k) =>
          new Abp2(k === 0 ? 0x28 : 0x38, {
            read(timeS) {
              // It has some noise, as any sensor of 24 bits has.
              const noise = 5 * Math.sin(1000 * timeS);
              const pressure = countsFromPressurePa(footPa(vessel, leg, timeS), RANGE_PA);
              return {
                pressureCounts: Math.round(pressure + noise),
                temperatureCounts: Math.round(countsFromTemperatureC(20)),
              };
            },
          }),
      ),
    saturate: (vessel) => {
      vessel.excess = 3;
    },
  },
];

/** Every driver with its instrument; serial ones come behind the chips. */
export const UNDER_TEST: readonly UnderTest[] = [...CHIPS.map(chipUnderTest), ...SERIAL_UNDER_TEST];
