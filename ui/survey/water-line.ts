import { Fault, type FaultReport } from '#core/fault/fault.ts';
import { waterLevels } from '#core/flotation/water-level.ts';
import { fitWaterSurface, type WaterSurfaceFit } from '#core/flotation/water-surface.ts';
import {
  checkWaterSurface,
  comparePoints,
  type PointCompared,
} from '#core/flotation/water-surface-check.ts';
import type { Advice } from '#core/quantity/advice.ts';
import { degreesFromRadians } from '#core/quantity/angle.ts';
import type { Occasion } from '#core/record/entry-line.ts';
import { entriesOf, type SurveyState } from '#core/session/survey-state.ts';

/** The waterline through the freeboards and marks as they stand, or why there is none yet. */
export interface WaterLine {
  readonly fit: WaterSurfaceFit | null;
  readonly refused: FaultReport | null;
  readonly points: readonly PointCompared[];
  readonly advice: readonly Advice[];
}

const NONE: WaterLine = { fit: null, refused: null, points: [], advice: [] };

export function waterLineOf(survey: SurveyState, occasion: Occasion = 'before'): WaterLine {
  const [vessel] = entriesOf(survey, 'vessel');
  const named = <V extends object>({ key, value }: { key: string; value: V }) => ({
    point: key,
    ...value,
  });
  const freeboards = entriesOf(survey, 'freeboard', occasion).map(named);
  const marks = entriesOf(survey, 'mark', occasion).map(named);
  if (vessel === undefined || freeboards.length + marks.length === 0) return NONE;
  try {
    const fit = fitWaterSurface(
      waterLevels(freeboards, marks),
      vessel.value.lengthM,
      vessel.value.readingUncertaintyM ?? null,
    );
    return { fit, refused: null, points: comparePoints(fit), advice: checkWaterSurface(fit) };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { ...NONE, refused: error.report };
  }
}

/** How she lies by it, each with half its 95 % interval by the readings alone. */
export function liesBy(fit: WaterSurfaceFit, half: (standardError: number) => number) {
  const { surface, covariance, lengthM } = fit;
  const deviation = (k: number) => Math.sqrt(covariance[k]![k]!);
  return {
    draughtM: { value: surface.middleM, half: half(deviation(0)) },
    trimM: { value: surface.trimSlope * lengthM, half: half(deviation(1) * lengthM) },
    listDeg: {
      value: degreesFromRadians(Math.atan(surface.heelSlope)),
      half: half(degreesFromRadians(deviation(2))),
    },
    sagM: fit.sagFitted ? { value: surface.sagM, half: half(deviation(3)) } : null,
  };
}

/** Mean density of the samples, kg/m3; null without any. */
export function meanDensity({ survey }: { readonly survey: SurveyState }): number | null {
  const samples = entriesOf(survey, 'water').map(({ value }) => value.densityKgM3);
  return samples.length === 0 ? null : samples.reduce((sum, one) => sum + one, 0) / samples.length;
}
