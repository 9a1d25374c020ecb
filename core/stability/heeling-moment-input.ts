import { z } from 'zod';
import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';
import { HEELING_MOMENTS, type HeelingMoment } from './evidence.ts';

/**
 * A moment from outside. Upright t m falling as a power of the cosine (0: the same at every heel), or
 * points of heel and moment with straight lines between; beyond the last it stays as it is there.
 */
export const heelingMomentInput = z
  .strictObject({
    kind: z.enum(HEELING_MOMENTS),
    words: z.string().trim().min(1).max(200),
    uprightTM: z.number().nonnegative().max(1e6).optional(),
    cosinePower: z.number().min(0).max(4).optional(),
    points: z
      .array(z.strictObject({ heelDeg: z.number().min(0).max(90), momentTM: z.number() }))
      .min(2)
      .max(60)
      .optional(),
    measured: z
      .strictObject({ heelDeg: z.number().min(0).max(60), leastFreeboardM: z.number() })
      .optional()
      .describe('what a heel test read under it'),
  })
  .refine(
    ({ uprightTM, cosinePower, points }) =>
      (points === undefined) !== (uprightTM === undefined) &&
      (points === undefined || cosinePower === undefined),
    'give uprightTM, with or without cosinePower, or points',
  )
  .refine(
    ({ points }) =>
      points === undefined ||
      points.every((one, k) => k === 0 || one.heelDeg > points[k - 1]!.heelDeg),
    'points in order of heel',
  );
type HeelingMomentInput = z.infer<typeof heelingMomentInput>;

export function heelingMomentFrom(input: HeelingMomentInput): HeelingMoment {
  const { uprightTM = 0, cosinePower = 0, points, measured } = input;
  return {
    kind: input.kind,
    words: input.words,
    momentTM: (heelRad) =>
      points === undefined
        ? uprightTM * Math.cos(heelRad) ** cosinePower
        : alongPoints(points, degreesFromRadians(heelRad)),
    measured:
      measured === undefined
        ? null
        : {
            heelRad: radiansFromDegrees(measured.heelDeg),
            leastFreeboardM: measured.leastFreeboardM,
          },
  };
}

function alongPoints(points: NonNullable<HeelingMomentInput['points']>, heelDeg: number): number {
  const next = points.findIndex((one) => one.heelDeg >= heelDeg);
  if (next <= 0) return points.at(next)!.momentTM;
  const [from, to] = [points[next - 1]!, points[next]!];
  const share = (heelDeg - from.heelDeg) / (to.heelDeg - from.heelDeg);
  return from.momentTM + share * (to.momentTM - from.momentTM);
}
