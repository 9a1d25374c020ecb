import { type Afloat, afloatFrom } from '../flotation/afloat.ts';
import type { HullAfloat } from '../flotation/hull-afloat.ts';
import { waterLevels } from '../flotation/water-level.ts';
import { fitWaterSurface, type WaterSurfaceFit } from '../flotation/water-surface.ts';
import { checkWaterSurface } from '../flotation/water-surface-check.ts';
import type { HullEvidence } from '../hull/hull-evidence.ts';
import type { Advice } from '../quantity/advice.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import { volumeOfSounding } from '../survey/tank-liquid.ts';
import { tankShapeFrom } from '../survey/tank-shape-input.ts';
import { waterFromSamples } from '../water/water-samples.ts';
import type { ExactHull } from './exact.ts';
import type { TankInput } from './float-input.ts';
import type { LiquidAboard } from './liquids.ts';
import type { TestInput } from './test-input.ts';

/** A test whose displacement and KM come from its hull, its waterline and the water. */
export interface TestFloat {
  readonly afloat: Afloat;
  readonly fit: WaterSurfaceFit;
  /** How well the hull is known by measured points and spot checks; null: by neither. */
  readonly hullEvidence: HullEvidence | null;
  readonly densityKgM3: Uncertain;
  readonly advice: readonly Advice[];
  /** The same test with displacement, KM, c2 and their common causes as found. */
  readonly test: TestInput;
  readonly liquids: readonly LiquidAboard[];
}

/** Null where the test gives displacement and KM itself, or neither. */
export function floatOfTest(test: TestInput, hull: HullAfloat | null): TestFloat | null {
  const { waterline, water } = test;
  if (waterline === undefined || water === undefined || hull === null) return null;
  const levels = waterLevels(waterline.freeboards ?? [], waterline.marks ?? []);
  const stated = waterline.readingUncertaintyM ?? null;
  const fit = fitWaterSurface(levels, waterline.lengthM, stated);
  const sampled = waterFromSamples(water.samples, water.hydrometerUncertaintyKgM3);
  const density = sampled.densityKgM3.value / 1000;
  const hullEvidence = hull.evidenceAt?.(fit.surface, density) ?? null;
  const afloat = afloatFrom(hull.immersionOf, fit, sampled.densityKgM3, {
    freeboardDatumM: waterline.freeboardDatumUncertaintyM ?? 0,
    markDatumM: waterline.markDatumUncertaintyM ?? 0,
    hullVolumeShare: test.hull?.volumeUncertaintyShare ?? 0,
    hullKmM: test.hull?.kmUncertaintyM ?? 0,
    hullCauses: hullEvidence?.causes ?? [],
  });
  const certain = (value: number) => ({ value, standardUncertainty: 0 });
  const { metacentreMovementM } = afloat;
  return {
    afloat,
    fit,
    hullEvidence,
    densityKgM3: sampled.densityKgM3,
    advice: [...checkWaterSurface(fit), ...sampled.advice],
    test: {
      ...test,
      displacement: certain(afloat.displacementT.value),
      km: certain(afloat.kmM.value),
      ...(metacentreMovementM === null ? {} : { metacentreMovement: certain(metacentreMovementM) }),
      together: afloat.causes.map((one) => ({
        cause: one.cause,
        displacement: one.displacementT,
        km: one.kmM,
        metacentreMovement: one.metacentreMovementM,
        degreesOfFreedom: one.degreesOfFreedom,
      })),
    },
    liquids: (test.liquids?.tanks ?? []).map((tank) => liquidOf(tank, fit)),
  };
}

function liquidOf(tank: TankInput, { surface }: WaterSurfaceFit): LiquidAboard {
  const shape = tankShapeFrom(tank.shape);
  const { sounding } = tank;
  const volumeM3 =
    sounding === undefined
      ? tank.volumeM3!
      : volumeOfSounding(shape, sounding, sounding.depthM, surface);
  return { tank: tank.tank, shape, volumeM3, densityTM3: tank.densityTM3 };
}

/** The hull of the exact equation; null where the hull's table gives no KN. */
export function exactHullOf(
  test: TestInput,
  hull: HullAfloat | null,
  float: TestFloat | null,
  trimMoments: readonly number[],
): { hull: ExactHull; advice: readonly Advice[] } | null {
  if (float === null || hull === null || hull.knOf === null) return null;
  const { knOf } = hull;
  const { afloat, fit } = float;
  const trimSlope = fit.surface.trimSlope;
  // GM longitudinal: what KG is below the metacentre athwartships is nothing beside it
  const gmLongitudinalM = (afloat.kmLongitudinalM ?? Number.POSITIVE_INFINITY) - afloat.kmM.value;
  const stiffness = afloat.displacementT.value * gmLongitudinalM;
  const changes = trimMoments.map((moment) => -moment / stiffness);
  return {
    hull: {
      knAt: (slope) => knOf(afloat.volumeM3, slope),
      liquids: float.liquids,
      trimSlopes: changes.map((change) => trimSlope + change),
      liquidUncertaintyShare: test.liquids?.freeSurfaceUncertaintyShare ?? 0,
      kmUncertaintyM: 0,
    },
    advice: trimAdvice(changes, fit.lengthM),
  };
}

/** Of the length, that moved weights may trim her by before it is said. Our setting. */
const MOST_TRIM_CHANGE_SHARE = 0.002;

function trimAdvice(changes: readonly number[], lengthM: number): Advice[] {
  const found = Math.max(...changes.map((change) => Math.abs(change * lengthM)));
  const limit = MOST_TRIM_CHANGE_SHARE * lengthM;
  if (!(found > limit)) return [];
  return [{ code: 'trim-changed', where: 'weights moved', found, limit, unit: 'm' }];
}
