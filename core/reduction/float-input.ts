import { z } from 'zod';
import { tankShapeInput } from '../survey/tank-shape-input.ts';

/** How she floats and what she floats in, for a test whose displacement and KM are not given. Metres, tonnes. */
const name = z.string().trim().min(1).max(64);
const finite = z.number();
const uncertainty = z.number().nonnegative();

export const freeboardInput = z.strictObject({
  point: name,
  side: z.enum(['port', 'starboard']),
  /** The marked point: forward of the after perpendicular, from the centreline, over the baseline. */
  xM: finite,
  halfBreadthM: z.number().nonnegative(),
  heightM: finite,
  /** Plumb from the point down to the water. */
  freeboardM: finite,
});

export const draughtMarkInput = z.strictObject({
  point: name,
  side: z.enum(['port', 'starboard', 'centre']),
  xM: finite,
  halfBreadthM: z.number().nonnegative(),
  draughtM: finite,
  /** Height of the mark's zero over the baseline. */
  zeroHeightM: finite,
});

export const waterlineInput = z.strictObject({
  /** Between perpendiculars. */
  lengthM: z.number().positive(),
  freeboards: z.array(freeboardInput).max(60).optional(),
  marks: z.array(draughtMarkInput).max(60).optional(),
  /** Of one reading; left out: their scatter speaks. */
  readingUncertaintyM: z.number().positive().optional(),
  /** Of the height of all freeboard points together, and of the zero of all marks. */
  freeboardDatumUncertaintyM: uncertainty.optional(),
  markDatumUncertaintyM: uncertainty.optional(),
});

export const waterSampleInput = z.strictObject({
  place: name,
  densityKgM3: z.number().positive(),
  temperatureC: finite.nullable(),
});

export const waterInput = z.strictObject({
  samples: z.array(waterSampleInput).min(1).max(60),
  hydrometerUncertaintyKgM3: uncertainty,
});

const fileBeside = z.string().min(1).max(200);

/** The vessel's hull, or her hydrostatics as tables, in files beside the test's own. */
export const hullInput = z.strictObject({
  /** A table of offsets (CSV, XLSX) or a hull file (JSON). */
  file: fileBeside.optional(),
  /** Instead: columns draughtM, displacementT, lcbM, kmTransverseM, kbM, and trimM where several. */
  tables: z
    .strictObject({
      file: fileBeside,
      /** Of the water the displacements are stated for. */
      densityKgM3: z.number().positive(),
      /** KN in the long form displacementT, heelDeg, knM; without it there is no exact answer. */
      knFile: fileBeside.optional(),
    })
    .optional(),
  /** Instead: points measured ashore (CSV or XLSX, xM,yM,zM), in any order within a section. */
  points: fileBeside.optional(),
  /** Spot checks of the vessel at three stations at least (JSON), beside a file or points. */
  check: fileBeside.optional(),
  /** Of the volume, relative, and of KM by the lines alone. */
  volumeUncertaintyShare: z.number().nonnegative().max(0.2).optional(),
  kmUncertaintyM: uncertainty.optional(),
});

export const tankInput = z.strictObject({
  tank: name,
  /** Tonnes a cubic metre. */
  densityTM3: z.number().positive().max(3),
  shape: tankShapeInput,
  /** Of what is in it, for the lightship. */
  massUncertaintyT: uncertainty.optional(),
  /** Left in the lightship, as agreed on the sheet; else it is taken off. */
  partOfLightship: z.boolean().optional(),
  /** What is in it: a volume, or a sounding over its striking place. */
  volumeM3: z.number().nonnegative().optional(),
  sounding: z
    .strictObject({ xM: finite, yM: finite, zM: finite, depthM: z.number().nonnegative() })
    .optional(),
});
export type TankInput = z.infer<typeof tankInput>;

export const tanksInput = z.strictObject({
  tanks: z.array(tankInput).max(60),
  /** Of each free surface, relative: shape, density, sounding. */
  freeSurfaceUncertaintyShare: z.number().nonnegative().max(1).optional(),
});

/** What of a test's float contradicts itself. */
export function floatContradictions(test: {
  readonly units?: { mass: string; length: string } | undefined;
  readonly displacement?: unknown;
  readonly km?: unknown;
  readonly metacentreMovement?: unknown;
  readonly together?: unknown;
  readonly waterline?: z.infer<typeof waterlineInput> | undefined;
  readonly water?: unknown;
  readonly hull?: z.infer<typeof hullInput> | undefined;
  readonly liquids?: z.infer<typeof tanksInput> | undefined;
}): { where: string; found: string }[] {
  const found: { where: string; found: string }[] = [];
  const byFloat = (['waterline', 'water', 'hull'] as const).filter(
    (field) => test[field] !== undefined,
  );
  if (byFloat.length === 0) {
    if (test.liquids !== undefined) {
      found.push({ where: 'liquids', found: 'their exact movement needs a hull' });
    }
    return found;
  }
  for (const field of ['waterline', 'water', 'hull'] as const) {
    if (test[field] === undefined) {
      found.push({ where: field, found: `missing beside ${byFloat.join(' and ')}` });
    }
  }
  for (const field of ['displacement', 'km', 'metacentreMovement', 'together'] as const) {
    if (test[field] !== undefined) {
      found.push({
        where: field,
        found: 'follows from hull, waterline and water; give one or the other',
      });
    }
  }
  const { hull } = test;
  if (hull !== undefined) {
    const given = [hull.file, hull.tables, hull.points].filter((one) => one !== undefined);
    if (given.length !== 1) {
      found.push({ where: 'hull', found: 'give a file of the hull, points measured, or tables' });
    }
    if (hull.check !== undefined && hull.tables !== undefined) {
      found.push({ where: 'hull.check', found: 'tables have no stations to check' });
    }
  }
  if (test.units !== undefined && (test.units.mass !== 't' || test.units.length !== 'm')) {
    found.push({ where: 'units', found: 'with a hull the units are t and m' });
  }
  for (const [k, tank] of (test.liquids?.tanks ?? []).entries()) {
    if ((tank.volumeM3 === undefined) === (tank.sounding === undefined)) {
      found.push({ where: `liquids.tanks[${k}]`, found: 'give either a volume or a sounding' });
    }
  }
  return found;
}
