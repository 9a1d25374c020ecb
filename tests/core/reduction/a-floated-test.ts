import { liquidsLeverM } from '#core/reduction/liquids.ts';
import type { TestInput } from '#core/reduction/test-input.ts';
import { rectangularTank } from '#core/survey/tank-liquid.ts';
import { BOX, restingHeel } from '#tests/core/reduction/closed-hulls.ts';

export const FUEL = {
  kind: 'rectangular' as const,
  fromXM: 4,
  toXM: 8,
  fromYM: -2,
  toYM: 2,
  fromZM: 0.2,
  toZM: 1,
};
const UNITS = [0, 1, 2, 1, 0, -1, -2, -1, 0];

/** Ten freeboards of the box at a draught and list, the deck at side 2.6 m up. */
function freeboards(draughtM: number, heelSlope: number) {
  return (['port', 'starboard'] as const).flatMap((side) =>
    [1, 5, 10, 15, 19].map((xM, i) => {
      const y = side === 'starboard' ? 3 : -3;
      const plumb = Math.sqrt(1 + heelSlope ** 2);
      const freeboardM = (2.6 - draughtM - heelSlope * y) / plumb;
      return { point: `${side} ${i + 1}`, side, xM, halfBreadthM: 3, heightM: 2.6, freeboardM };
    }),
  );
}

/** The box at 1.5 m, KG solid 2.0, a fuel tank 8 m3 of .85, weights of 3 t m a unit, read exactly. */
export function floatedTest(kgSolid = 2, withTank = true): TestInput {
  const { kind: _, ...sides } = FUEL;
  const liquid = { tank: 'fuel', shape: rectangularTank(sides), volumeM3: 8, densityTM3: 0.85 };
  const lever = liquidsLeverM(withTank ? [liquid] : [], BOX.displacement, 0);
  const heels = UNITS.map((unit) =>
    restingHeel(BOX, { kg: kgSolid, tcg: 0.004, my: 3 * unit }, lever),
  );
  return {
    heelwrightTest: 1,
    name: 'box afloat',
    waterline: {
      lengthM: 20,
      freeboards: freeboards(1.5, Math.tan(heels[0]!)),
      readingUncertaintyM: 0.005,
      freeboardDatumUncertaintyM: 0.003,
    },
    water: {
      samples: [{ place: 'amidships', densityKgM3: 1025, temperatureC: 14 }],
      hydrometerUncertaintyKgM3: 0.5,
    },
    hull: { file: 'box.csv', volumeUncertaintyShare: 0.002 },
    liquids: {
      tanks: withTank ? [{ tank: 'fuel', densityTM3: 0.85, shape: FUEL, volumeM3: 8 }] : [],
      freeSurfaceUncertaintyShare: 0.05,
    },
    instruments: [{ instrument: 'fore', reads: 'heel-deg', scaleUncertainty: 0.001 }],
    states: UNITS.map((unit, i) => ({
      heelingMoment: 3 * unit,
      readings: { fore: (heels[i]! * 180) / Math.PI },
    })),
  };
}
