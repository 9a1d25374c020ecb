import { Fault } from '../fault/fault.ts';
import type { HullEvidence } from '../hull/hull-evidence.ts';
import { independentParts } from '../numerics/independent-parts.ts';
import { degreesFromRadians } from '../quantity/angle.ts';
import { checkPositive, checkRange } from '../quantity/check.ts';
import {
  type Contribution,
  type Uncertain,
  uncertainFromContributions,
} from '../quantity/uncertainty.ts';
import { WATER_SURFACE_PARTS, type WaterSurface, type WaterSurfaceFit } from './water-surface.ts';

/** What a hull gives under a surface. Upright metacentric heights; a table of hydrostatics gives the same. */
export interface Immersion {
  readonly volumeM3: number;
  readonly lcbM: number;
  readonly tcbM: number;
  readonly vcbM: number;
  /** Height of the transverse metacentre over the baseline. */
  readonly kmM: number;
  /** Height of the longitudinal metacentre; null: not known. */
  readonly kmLongitudinalM: number | null;
  /** c2 of the metacentre's movement: KN / cos(heel) = KM tan + c2 tan^3. Null: not known. Dear to find. */
  readonly metacentreMovementM: () => number | null;
}

export type ImmersionOf = (surface: WaterSurface) => Immersion;

/** Standard uncertainties of what the waterline rests on besides the readings. */
export interface FloatUncertainties {
  /** Height of the freeboards' marks over the baseline, common to all (one sheer line). */
  readonly freeboardDatumM: number;
  /** Zero of the draught marks, common to all. */
  readonly markDatumM: number;
  /** Of the hull's volume, relative: lines, appendages, shell. */
  readonly hullVolumeShare: number;
  /** Of KM by the hull's lines alone. */
  readonly hullKmM: number;
  /** What measured points and spot checks leave open, cause by cause; left out: none were taken. */
  readonly hullCauses?: HullEvidence['causes'];
}

/** One independent cause: what one standard uncertainty of it adds, with sign, all together. */
export interface FloatCause {
  readonly cause: string;
  readonly displacementT: number;
  readonly kmM: number;
  readonly metacentreMovementM: number;
  readonly lcbM: number;
  readonly tcbM: number;
  readonly vcbM: number;
  readonly trimSlope: number;
  readonly heelSlope: number;
  readonly degreesOfFreedom: number;
}

export interface Afloat {
  readonly displacementT: Uncertain;
  readonly kmM: Uncertain;
  readonly kmLongitudinalM: number | null;
  readonly metacentreMovementM: number | null;
  readonly lcbM: Uncertain;
  readonly tcbM: number;
  readonly vcbM: number;
  readonly volumeM3: number;
  /** At the after perpendicular, amidships (with hog or sag) and the forward perpendicular. */
  readonly draughtAftM: number;
  readonly draughtMidshipsM: number;
  readonly draughtForwardM: number;
  readonly trimM: number;
  readonly heelDeg: number;
  readonly sagM: number;
  /** Mass that sinks her by a metre, by a centimetre of it. */
  readonly tonnesPerM: number;
  /** Same names belong to one cause of several independent parts. */
  readonly causes: readonly FloatCause[];
}

const SINKING_M = 0.01;

/**
 * Displacement, centre of buoyancy and KM as she floats, at her trim, hog and density; each cause
 * moves displacement, KM and c2 together and is propagated once (GUM, JCGM 100:2008, 5.1).
 * KM and c2 are those upright at the same volume.
 */
export function afloatFrom(
  immersionOf: ImmersionOf,
  fit: WaterSurfaceFit,
  densityKgM3: Uncertain,
  uncertainties: FloatUncertainties,
): Afloat {
  checkPositive(densityKgM3.value, 'water density, kg/m3');
  checkRange(uncertainties.hullVolumeShare, 0, 0.2, 'hull volume share');
  const at = (surface: WaterSurface) => immersedUpright(immersionOf, surface);
  const immersion = at(fit.surface);
  const displacementT = (immersion.volumeM3 * densityKgM3.value) / 1000;
  const causes = [
    ...surfaceCauses(fit, uncertainties, densityKgM3.value, at),
    ...otherCauses(displacementT, densityKgM3, uncertainties),
  ];
  const uncertain = (value: number, of: (cause: FloatCause) => number): Uncertain =>
    uncertainFromContributions(value, contributionsOf(causes, of));
  const { surface, lengthM } = fit;
  const deeper = immersionOf({ ...surface, middleM: surface.middleM + SINKING_M / 2 });
  const higher = immersionOf({ ...surface, middleM: surface.middleM - SINKING_M / 2 });
  const ends = (surface.trimSlope * lengthM) / 2;
  return {
    displacementT: uncertain(displacementT, (one) => one.displacementT),
    kmM: uncertain(immersion.kmM, (one) => one.kmM),
    kmLongitudinalM: immersion.kmLongitudinalM,
    metacentreMovementM: immersion.metacentreMovementM(),
    lcbM: uncertain(immersion.lcbM, (one) => one.lcbM),
    tcbM: immersion.tcbM,
    vcbM: immersion.vcbM,
    volumeM3: immersion.volumeM3,
    tonnesPerM: ((deeper.volumeM3 - higher.volumeM3) / SINKING_M) * (densityKgM3.value / 1000),
    draughtAftM: surface.middleM + ends,
    draughtMidshipsM: surface.middleM + surface.sagM,
    draughtForwardM: surface.middleM - ends,
    trimM: 2 * ends,
    heelDeg: degreesFromRadians(Math.atan(surface.heelSlope)),
    sagM: surface.sagM,
    causes,
  };
}

/** Parts of one cause together, as one contribution of the budget. */
export function contributionsOf<C extends { cause: string; degreesOfFreedom: number }>(
  causes: readonly C[],
  of: (cause: C) => number,
): Contribution[] {
  const byCause = new Map<string, Contribution>();
  for (const one of causes) {
    const before = byCause.get(one.cause)?.standardUncertainty ?? 0;
    byCause.set(one.cause, {
      cause: one.cause,
      standardUncertainty: Math.hypot(before, of(one)),
      degreesOfFreedom: one.degreesOfFreedom,
    });
  }
  return [...byCause.values()];
}

const MOST_ROUNDS = 30;

/** Volume and buoyancy as she lies, KM and c2 upright at the same volume. */
function immersedUpright(immersionOf: ImmersionOf, surface: WaterSurface): Immersion {
  const listed = immersionOf(surface);
  if (surface.heelSlope === 0) return listed;
  const volumeAt = (middleM: number) => immersionOf({ ...surface, heelSlope: 0, middleM }).volumeM3;
  let middleM = surface.middleM;
  const step = 1e-3;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const upright = immersionOf({ ...surface, heelSlope: 0, middleM });
    const off = upright.volumeM3 - listed.volumeM3;
    if (Math.abs(off) <= 1e-10 * listed.volumeM3) {
      const { kmM, kmLongitudinalM, metacentreMovementM } = upright;
      return { ...listed, kmM, kmLongitudinalM, metacentreMovementM };
    }
    const area = (volumeAt(middleM + step) - volumeAt(middleM - step)) / (2 * step);
    middleM -= off / checkPositive(area, 'waterplane area, m2');
  }
  throw new Fault('no-convergence', 'upright waterline', `after ${MOST_ROUNDS} rounds`);
}

type At = (surface: WaterSurface) => Immersion;

function surfaceCauses(
  fit: WaterSurfaceFit,
  { freeboardDatumM, markDatumM }: FloatUncertainties,
  densityKgM3: number,
  at: At,
): FloatCause[] {
  const rows = [
    ...independentParts(fit.covariance).map((moved) => ({
      cause: 'freeboards and draughts as read',
      degreesOfFreedom: fit.readingDegreesOfFreedom,
      moved,
    })),
    ...(
      [
        ['datum of the freeboards', fit.datum.freeboards, freeboardDatumM],
        ['datum of the draught marks', fit.datum.marks, markDatumM],
      ] as const
    ).map(([cause, unit, size]) => ({
      cause,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
      moved: unit.map((part) => part * size),
    })),
  ];
  return rows
    .filter(({ moved }) => moved.some((part) => part !== 0))
    .map(({ cause, degreesOfFreedom, moved }) => {
      const up = at(movedBy(fit.surface, moved, 1));
      const down = at(movedBy(fit.surface, moved, -1));
      const half = (of: (one: Immersion) => number) => (of(up) - of(down)) / 2;
      return {
        cause,
        displacementT: (half((one) => one.volumeM3) * densityKgM3) / 1000,
        kmM: half((one) => one.kmM),
        metacentreMovementM: half((one) => one.metacentreMovementM() ?? 0),
        lcbM: half((one) => one.lcbM),
        tcbM: half((one) => one.tcbM),
        vcbM: half((one) => one.vcbM),
        trimSlope: moved[WATER_SURFACE_PARTS.indexOf('trimSlope')]!,
        heelSlope: moved[WATER_SURFACE_PARTS.indexOf('heelSlope')]!,
        degreesOfFreedom,
      };
    });
}

function movedBy(surface: WaterSurface, moved: readonly number[], sign: 1 | -1): WaterSurface {
  const [middleM = 0, trimSlope = 0, heelSlope = 0, sagM = 0] = moved.map((part) => sign * part);
  return {
    middleM: surface.middleM + middleM,
    trimSlope: surface.trimSlope + trimSlope,
    heelSlope: surface.heelSlope + heelSlope,
    sagM: surface.sagM + sagM,
  };
}

function otherCauses(
  displacementT: number,
  density: Uncertain,
  { hullVolumeShare, hullKmM, hullCauses = [] }: FloatUncertainties,
): FloatCause[] {
  const alone = (
    cause: string,
    part: Partial<FloatCause>,
    degreesOfFreedom = Number.POSITIVE_INFINITY,
  ): FloatCause => ({
    cause,
    displacementT: 0,
    kmM: 0,
    metacentreMovementM: 0,
    lcbM: 0,
    tcbM: 0,
    vcbM: 0,
    trimSlope: 0,
    heelSlope: 0,
    degreesOfFreedom,
    ...part,
  });
  return [
    alone(
      'water density',
      { displacementT: (displacementT * density.standardUncertainty) / density.value },
      density.degreesOfFreedom,
    ),
    alone('volume of the hull', { displacementT: displacementT * hullVolumeShare }),
    alone('KM of the hull', { kmM: hullKmM }),
    ...hullCauses.flatMap(
      ({ cause, displacementT: tonnes, kmM, correlation, degreesOfFreedom }) => [
        alone(cause, { displacementT: tonnes, kmM: correlation * kmM }, degreesOfFreedom),
        alone(cause, { kmM: Math.sqrt(1 - correlation ** 2) * kmM }, degreesOfFreedom),
      ],
    ),
  ].filter((one) => one.displacementT !== 0 || one.kmM !== 0);
}
