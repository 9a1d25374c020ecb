import { z } from 'zod';
import type { Contribution } from '../quantity/uncertainty.ts';
import type { Hull } from './hull.ts';
import type { MeasuredHull } from './measured-points.ts';
import type { MeasuredPoint } from './measured-section.ts';
import { measuredHullUncertainty } from './measured-uncertainty.ts';
import { type SpotMeasured, spotCheck } from './spot-check.ts';
import type { Waterline } from './waterline.ts';

const metres = z.number();

/** Spot checks of the vessel against her lines plan, three stations at least. Metres. */
export const spotChecksInput = z
  .array(
    z.strictObject({
      xM: metres,
      beam: z.strictObject({ zM: metres, beamM: z.number().positive() }).exactOptional(),
      depthM: z.number().positive().exactOptional(),
      sheerM: metres.exactOptional(),
      keelM: metres.exactOptional(),
      mark: z.strictObject({ readsM: metres, measuredM: metres }).exactOptional(),
    }),
  )
  .max(100);

const causes = z.array(
  z.strictObject({
    cause: z.string(),
    displacementT: z.number().nonnegative(),
    kmM: z.number().nonnegative(),
    /** Of the two: 1 where more displacement goes with a higher metacentre. */
    correlation: z.number().min(-1).max(1),
    degreesOfFreedom: z.number().positive(),
  }),
);

/** What is known of how well the hull is this boat's: standard uncertainties of displacement and KM. */
export const hullEvidence = z.strictObject({
  causes,
  /** Of a hull made from points measured ashore; null for a lines plan. */
  measured: z
    .strictObject({
      pointUncertaintyM: z.number(),
      sections: z.array(
        z.strictObject({
          xM: metres,
          centreOffM: metres.nullable(),
          halvesDifferM: metres.nullable(),
        }),
      ),
      outliers: z.array(
        z.strictObject({
          where: z.string(),
          alongM: metres.nullable(),
          acrossM: metres.nullable(),
        }),
      ),
    })
    .nullable(),
  differences: z.array(
    z.strictObject({
      kind: z.enum(['beam', 'depth', 'sheer', 'keel', 'mark']),
      xM: metres,
      measuredM: metres,
      plannedM: metres,
      differenceM: metres,
      doubtful: z.boolean(),
    }),
  ),
});
export type HullEvidence = z.infer<typeof hullEvidence>;

/** What a hull is known by besides a lines plan: points it was made of, spot checks of it. */
export interface HullKnownBy {
  readonly points: {
    readonly measured: readonly MeasuredPoint[];
    readonly made: MeasuredHull;
  } | null;
  readonly spots: readonly SpotMeasured[] | null;
}

/** A tape on a hull ashore reads no better, however fair the points lie. Our setting. */
const LEAST_POINT_M = 0.002;

/**
 * Evidence on a hull at a waterline. Throws what `spotCheck` and `measuredHullUncertainty` throw.
 */
export function hullEvidenceAt(
  hull: Hull,
  waterline: Waterline,
  densityTM3: number,
  { points, spots }: HullKnownBy,
): HullEvidence {
  const found: HullEvidence = { causes: [], measured: null, differences: [] };
  const add = (tonnes: Contribution, km: Contribution, correlation: number): void => {
    found.causes.push({
      cause: tonnes.cause,
      displacementT: tonnes.standardUncertainty,
      kmM: km.standardUncertainty,
      correlation,
      degreesOfFreedom: tonnes.degreesOfFreedom,
    });
  };
  if (points !== null) {
    const { fairness, sections } = points.made;
    const pointUncertaintyM = Math.max(fairness.pointUncertaintyM, LEAST_POINT_M);
    const parts = { name: hull.name, offsetsAre: 'outside' as const };
    const spread = measuredHullUncertainty(
      points.measured,
      parts,
      waterline,
      densityTM3,
      pointUncertaintyM,
    );
    add(spread.displacementT, spread.kmM, spread.correlation);
    found.measured = {
      pointUncertaintyM,
      sections: sections.map(({ xM, centreOffM, halvesDifferM }) => ({
        xM,
        centreOffM,
        halvesDifferM,
      })),
      outliers: fairness.outliers.map(({ point, alongM, acrossM }) => ({
        where: point.where,
        alongM,
        acrossM,
      })),
    };
  }
  if (spots !== null) {
    const check = spotCheck(hull, waterline, densityTM3, spots);
    for (const [k, tonnes] of check.displacementT.entries())
      add(tonnes, check.kmM[k]!, check.correlations[k]!);
    found.differences = check.differences.map((one) => ({
      ...one,
      doubtful: check.doubtful.includes(one),
    }));
  }
  return found;
}
