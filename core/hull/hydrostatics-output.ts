import { z } from 'zod';
import { Fault } from '../fault/fault.ts';
import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';
import { type Hull, wholeVolume } from './hull.ts';
import { type HullEvidence, hullEvidence } from './hull-evidence.ts';
import { hydrostaticsAt } from './hydrostatics.ts';
import { metacentreMovementByKnM } from './metacentre-movement.ts';
import { heelLimits, knCurve, rightingLeverM } from './righting-lever.ts';
import type { Waterline } from './waterline.ts';

const angle = z.number().nullable();

/** What the command `hydrostatics` answers. Metres, tonnes, degrees; ship axes. */
export const hydrostaticsOutput = z.strictObject({
  hull: z.strictObject({
    name: z.string(),
    offsetsAre: z.enum(['moulded', 'outside']),
    shellThicknessM: z.number(),
    fromXM: z.number(),
    toXM: z.number(),
    lengthBetweenPerpendicularsM: z.number(),
    wholeVolumeM3: z.number().describe('with deck, superstructures and appendages all immersed'),
    between: z.string().describe('how the hull runs between the given points and stations'),
  }),
  densityKgM3: z.number(),
  heelDeg: z.number(),
  trimM: z.number().describe('draught aft less draught forward, by the stern'),
  draughtAftM: z.number(),
  draughtForwardM: z.number(),
  draughtMeanM: z.number(),
  volumeM3: z.number(),
  displacementT: z.number(),
  lcbM: z.number(),
  tcbM: z.number(),
  kbM: z.number(),
  waterplaneAreaM2: z.number(),
  lcfM: z.number(),
  tcfM: z.number(),
  bmTransverseM: z.number(),
  bmLongitudinalM: z.number(),
  kmTransverseM: z.number(),
  kmLongitudinalM: z.number(),
  immersionTPerCm: z.number(),
  trimMomentTMPerCm: z
    .number()
    .describe('with GM longitudinal where kgM is given, else with BM longitudinal'),
  metacentreMovementM: z
    .number()
    .nullable()
    .describe('c2: GM from one shift reads GM + c2 tan2(heel); null heeled'),
  kgM: z.number().nullable(),
  gmTransverseM: z.number().nullable().describe('KM - KG, without free surfaces'),
  evidence: hullEvidence
    .nullable()
    .describe('null where neither measured points nor spot checks were given'),
  levers: z.strictObject({
    trim: z.enum(['free', 'fixed']),
    displacements: z.array(
      z.strictObject({
        displacementT: z.number(),
        points: z.array(
          z.strictObject({
            heelDeg: z.number(),
            trimM: z.number(),
            knM: z.number(),
            gzM: z.number().nullable(),
          }),
        ),
        limits: z
          .strictObject({
            deckEdgeDeg: angle,
            vanishingDeg: angle.describe('null without kgM, or when GZ does not vanish'),
            openings: z.array(
              z.strictObject({ name: z.string(), closing: z.string(), immersedDeg: angle }),
            ),
          })
          .describe('to the side the heels are on; null: not within 90 degrees'),
      }),
    ),
  }),
});
export type HydrostaticsOutput = z.infer<typeof hydrostaticsOutput>;

export interface HydrostaticsQuestion {
  readonly waterline: Waterline;
  readonly densityKgM3: number;
  readonly kgM: number | null;
  readonly evidence: HullEvidence | null;
  readonly trim: 'free' | 'fixed';
  readonly side: 'starboard' | 'port';
  readonly heelsDeg: readonly number[];
  /** Displacements of the table of levers; the one of the waterline where empty. */
  readonly displacementsT: readonly number[];
}

const BETWEEN =
  'sections: cubics through the points with the direction of a circle through three, straight runs and knuckles kept; fore and aft: cubics with the direction of a parabola through three stations, straight runs and knuckles kept';

/** Everything the command answers, unrounded. */
export function hydrostaticsAnswer(hull: Hull, question: HydrostaticsQuestion): HydrostaticsOutput {
  const { waterline, densityKgM3, kgM } = question;
  const densityTM3 = densityKgM3 / 1000;
  const set = hydrostaticsAt(hull, waterline, densityTM3, kgM ?? undefined);
  if (!(set.volumeM3 > 0) || !(set.waterplaneAreaM2 > 0)) {
    throw new Fault('input-range', 'draught', `the water does not meet ${hull.name} there`);
  }
  // She rests at this trim when her centre of gravity lies over the centre of buoyancy.
  const centreX = set.buoyancy.xM + ((kgM ?? 0) - set.buoyancy.zM) * Math.tan(waterline.trimRad);
  const displacementsT =
    question.displacementsT.length > 0 ? question.displacementsT : [set.displacementT];
  return {
    hull: {
      name: hull.name,
      offsetsAre: hull.offsetsAre,
      shellThicknessM: hull.shellThicknessM,
      fromXM: hull.fromXM,
      toXM: hull.toXM,
      lengthBetweenPerpendicularsM: hull.forwardXM - hull.aftXM,
      wholeVolumeM3: wholeVolume(hull).volumeM3,
      between: BETWEEN,
    },
    densityKgM3,
    heelDeg: degreesFromRadians(waterline.heelRad),
    trimM: set.draughtAftM - set.draughtForwardM,
    draughtAftM: set.draughtAftM,
    draughtForwardM: set.draughtForwardM,
    draughtMeanM: set.draughtMeanM,
    volumeM3: set.volumeM3,
    displacementT: set.displacementT,
    lcbM: set.buoyancy.xM,
    tcbM: set.buoyancy.yM,
    kbM: set.buoyancy.zM,
    waterplaneAreaM2: set.waterplaneAreaM2,
    lcfM: set.flotation.xM,
    tcfM: set.flotation.yM,
    bmTransverseM: set.bmTransverseM,
    bmLongitudinalM: set.bmLongitudinalM,
    kmTransverseM: set.kmTransverseM,
    kmLongitudinalM: set.kmLongitudinalM,
    immersionTPerCm: set.immersionTPerCm,
    trimMomentTMPerCm: set.trimMomentTMPerCm,
    metacentreMovementM:
      waterline.heelRad === 0
        ? metacentreMovementByKnM(hull, waterline, question.trim, kgM ?? undefined)
        : null,
    kgM,
    evidence: question.evidence,
    gmTransverseM: kgM === null ? null : set.kmTransverseM - kgM,
    levers: {
      trim: question.trim,
      displacements: displacementsT.map((displacementT) =>
        leversAt(hull, question, centreX, displacementT),
      ),
    },
  };
}

/**
 * Free trim is about a centre of gravity over the centre of buoyancy of the asked waterline, at the
 * height asked, or at the baseline where none is.
 */
function leversAt(
  hull: Hull,
  { waterline, densityKgM3, kgM, trim, side, heelsDeg }: HydrostaticsQuestion,
  centreX: number,
  displacementT: number,
): HydrostaticsOutput['levers']['displacements'][number] {
  const way = side === 'starboard' ? 1 : -1;
  const volumeM3 = displacementT / (densityKgM3 / 1000);
  const trimming =
    trim === 'fixed'
      ? { fixedTrimRad: waterline.trimRad }
      : { freeAbout: { xM: centreX, zM: kgM ?? 0 } };
  const heels = heelsDeg.map((heelDeg) => way * radiansFromDegrees(heelDeg));
  const lengthM = hull.forwardXM - hull.aftXM;
  const limits = heelLimits(hull, { volumeM3, trimming, kgM: kgM ?? 0, tcgM: 0, side });
  const degrees = (rad: number | null) => (rad === null ? null : degreesFromRadians(rad));
  return {
    displacementT,
    points: knCurve(hull, volumeM3, heels, trimming).map((point, k) => ({
      heelDeg: way * heelsDeg[k]!,
      // The rise of the ship's own length over the horizontal, at any heel.
      trimM: lengthM * Math.tan(point.waterline.trimRad),
      knM: point.knM,
      gzM: kgM === null ? null : rightingLeverM(point, kgM),
    })),
    limits: {
      deckEdgeDeg: degrees(limits.deckEdgeRad),
      vanishingDeg: kgM === null ? null : degrees(limits.vanishingRad),
      openings: limits.openings.map(({ name, closing, immersedRad }) => ({
        name,
        closing,
        immersedDeg: degrees(immersedRad),
      })),
    },
  };
}
