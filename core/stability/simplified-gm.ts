import { type Answer, known, unknown } from './answer.ts';
import type { ConditionEvidence } from './evidence.ts';
import type { PlainLimit } from './rule-limit.ts';

type SimplifiedGm = Extract<PlainLimit, { kind: 'simplified-gm' }>;

/**
 * Least GM of a decked vessel from her dimensions (form of IMO A.207(VII)), m; coefficients and ranges
 * are the rule set's. Outside the ranges it is not known, since the regression it rests on has no
 * such vessels.
 */
export function simplifiedGmM(evidence: ConditionEvidence, of: SimplifiedGm): Answer {
  const { vessel, waterlineBeamM: b, waterlineLengthM: l, leastFreeboardM: f } = evidence;
  const { depthM, superstructureLengthM, superstructureHeightM, sheerAtLeastStandard } = vessel;
  if (depthM === null) return unknown('particulars-not-given', 'depth');
  if (superstructureLengthM === null)
    return unknown('particulars-not-given', 'length of superstructures');
  const ratios = [f / b, superstructureLengthM / l, b / depthM] as const;
  const outside = outsideRanges(of, ratios);
  if (outside !== null) return unknown('outside-validity', outside);
  if (vessel.decked !== true) return missing(vessel.decked, 'decked');
  if (sheerAtLeastStandard !== true)
    return missing(sheerAtLeastStandard, 'sheer as the standard one');
  if (superstructureLengthM > 0) {
    if (superstructureHeightM === null)
      return unknown('particulars-not-given', 'height of superstructures');
    if (superstructureHeightM < of.superstructureHeightM)
      return unknown('outside-validity', `superstructure height ${superstructureHeightM} m`);
  }
  const [c0, c1, c2, c3, c4] = of.coefficients;
  const [fb, lsl, bd] = ratios;
  return known(of.constantM + 2 * b * (c0 + c1 * fb + c2 * fb * fb + c3 * bd + c4 * lsl));
}

function missing(said: boolean | null, what: string): Answer {
  return said === null
    ? unknown('particulars-not-given', what)
    : unknown('outside-validity', `not ${what}`);
}

function outsideRanges(
  of: SimplifiedGm,
  [fb, lsl, bd]: readonly [number, number, number],
): string | null {
  const { freeboardToBeam, beamToDepth, superstructureToLengthUnder } = of;
  if (!(fb >= freeboardToBeam.least && fb <= freeboardToBeam.most)) return `f/B ${fb}`;
  if (!(lsl < superstructureToLengthUnder)) return `ls/L ${lsl}`;
  if (!(bd >= beamToDepth.least && bd <= beamToDepth.most)) return `B/D ${bd}`;
  return null;
}
