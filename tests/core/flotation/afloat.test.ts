import { expect, test } from 'vitest';
import { afloatFrom, contributionsOf, type Immersion } from '#core/flotation/afloat.ts';
import { waterLevels } from '#core/flotation/water-level.ts';
import { fitWaterSurface, type WaterSurface } from '#core/flotation/water-surface.ts';

const L = 20;
const B = 6;

/** A box L 20, B 6 in closed form at any trim, heel and sag that keeps bottom and deck dry. */
function box({ middleM, trimSlope, heelSlope, sagM }: WaterSurface): Immersion {
  // the mean of 1 - u2 over the length is 2/3, and of its square 8/15
  const mean = middleM + (2 / 3) * sagM;
  const trimM2 = (trimSlope * L) ** 2 / 12;
  const square = middleM ** 2 + (4 / 3) * middleM * sagM + (8 / 15) * sagM ** 2;
  const heelM2 = (heelSlope * B) ** 2 / 12;
  return {
    volumeM3: L * B * mean,
    lcbM: L / 2 - (trimSlope * L ** 2) / 12 / mean,
    tcbM: (heelSlope * B ** 2) / 12 / mean,
    vcbM: (square + trimM2 + heelM2) / 2 / mean,
    kmM: (square + trimM2) / 2 / mean + B ** 2 / 12 / mean,
    kmLongitudinalM: (square + trimM2) / 2 / mean + L ** 2 / 12 / mean,
    metacentreMovementM: () => B ** 2 / 24 / mean,
  };
}

const levels = (surface: WaterSurface) =>
  waterLevels(
    (['port', 'starboard'] as const).flatMap((side) =>
      [1, 5, 10, 15, 19].map((xM, i) => {
        const y = side === 'starboard' ? 3 : -3;
        const u = (xM - 10) / 10;
        const water =
          surface.middleM -
          surface.trimSlope * (xM - 10) +
          surface.heelSlope * y +
          surface.sagM * (1 - u * u);
        const plumb = Math.sqrt(1 + surface.trimSlope ** 2 + surface.heelSlope ** 2);
        const point = `${side} ${i}`;
        return { point, side, xM, halfBreadthM: 3, heightM: 3, freeboardM: (3 - water) / plumb };
      }),
    ),
    [],
  );

const EXACT = { value: 1025, standardUncertainty: 0, degreesOfFreedom: Number.POSITIVE_INFINITY };
const NONE = { freeboardDatumM: 0, markDatumM: 0, hullVolumeShare: 0, hullKmM: 0 };

test('the box at 1.5 m: 184.5 t, KM 2.75, c2 1.0, exactly', () => {
  const surface = { middleM: 1.5, trimSlope: 0, heelSlope: 0.004, sagM: 0 };
  const fit = fitWaterSurface(levels(surface), L, 0.005);
  const found = afloatFrom(box, fit, EXACT, NONE);
  expect(found.displacementT.value).toBeCloseTo(184.5, 9);
  expect(found.kmM.value).toBeCloseTo(2.75, 9);
  expect(found.metacentreMovementM).toBeCloseTo(1, 9);
  expect(found.heelDeg).toBeCloseTo((Math.atan(0.004) * 180) / Math.PI, 9);
});

test('trim and hog are in the volume and the draughts', () => {
  const surface = { middleM: 1.52, trimSlope: 0.01, heelSlope: 0, sagM: -0.03 };
  const found = afloatFrom(box, fitWaterSurface(levels(surface), L, 0.005), EXACT, NONE);
  expect(found.volumeM3).toBeCloseTo(20 * 6 * 1.5, 8);
  expect(found.draughtAftM).toBeCloseTo(1.62, 9);
  expect(found.draughtForwardM).toBeCloseTo(1.42, 9);
  expect(found.draughtMidshipsM).toBeCloseTo(1.49, 9);
  expect(found.trimM).toBeCloseTo(0.2, 9);
  expect(found.lcbM.value).toBeCloseTo(10 - (0.01 * 400) / 12 / 1.5, 9);
});

// dDisplacement/dT = 123 t/m, dKM/dT = 1/2 - B2/(12 T2): calculated apart from this program.
test('a datum 5 mm wrong moves displacement and KM together, c2 too', () => {
  const surface = { middleM: 1.5, trimSlope: 0, heelSlope: 0, sagM: 0 };
  const fit = fitWaterSurface(levels(surface), L, 0.005);
  const found = afloatFrom(box, fit, EXACT, { ...NONE, freeboardDatumM: 0.005 });
  const datum = found.causes.find((one) => one.cause === 'datum of the freeboards')!;
  expect(datum.displacementT).toBeCloseTo(0.615, 6);
  expect(datum.kmM).toBeCloseTo(0.005 * (0.5 - 36 / 12 / 2.25), 6);
  expect(datum.metacentreMovementM).toBeCloseTo(-0.005 / 1.5, 6);
});

test('each cause has its own line: readings, density, hull volume, hull KM', () => {
  const surface = { middleM: 1.5, trimSlope: 0.002, heelSlope: 0.002, sagM: 0 };
  const fit = fitWaterSurface(levels(surface), L, 0.005);
  const density = { ...EXACT, standardUncertainty: 0.5 };
  const all = { freeboardDatumM: 0.003, markDatumM: 0.01, hullVolumeShare: 0.004, hullKmM: 0.006 };
  const found = afloatFrom(box, fit, density, all);
  const rows = contributionsOf(found.causes, (one) => one.displacementT);
  expect(rows.map((row) => row.cause)).toEqual(
    [
      'freeboards and draughts as read',
      'datum of the freeboards',
      'water density',
      'volume of the hull',
    ].concat('KM of the hull'),
  );
  expect(rows[2]!.standardUncertainty).toBeCloseTo((184.5 * 0.5) / 1025, 9);
  expect(rows[3]!.standardUncertainty).toBeCloseTo(0.004 * 184.5, 9);
  expect(found.displacementT.standardUncertainty).toBeCloseTo(
    Math.hypot(...rows.map((row) => row.standardUncertainty)),
    12,
  );
});

test('what measured points and spot checks leave open is a cause of its own, its two effects together as far as they go together', () => {
  const surface = { middleM: 1.5, trimSlope: 0, heelSlope: 0, sagM: 0 };
  const fit = fitWaterSurface(levels(surface), L, 0.005);
  const cause = 'points measured off the hull';
  const hullCauses = [
    { cause, displacementT: 0.5, kmM: 0.01, correlation: -0.6, degreesOfFreedom: 59 },
  ];
  const { causes } = afloatFrom(box, fit, EXACT, { ...NONE, hullCauses });
  const own = causes.filter((one) => one.cause === cause);
  const product = own.reduce((sum, one) => sum + one.displacementT * one.kmM, 0);
  expect(product).toBeCloseTo(-0.6 * 0.5 * 0.01, 15);
  for (const [of, size] of [
    ['displacementT', 0.5],
    ['kmM', 0.01],
  ] as const) {
    const rows = contributionsOf(own, (one) => one[of]);
    expect(rows).toHaveLength(1);
    expect(rows[0]!.standardUncertainty).toBeCloseTo(size, 12);
  }
});
