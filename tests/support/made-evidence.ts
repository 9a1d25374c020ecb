import { radiansFromDegrees } from '#core/quantity/angle.ts';
import type {
  ConditionEvidence,
  EvidenceCause,
  Levers,
  VesselParticulars,
} from '#core/stability/evidence.ts';
import { leversThrough } from '#core/stability/sampled-levers.ts';

/** Levers through points in degrees and metres. */
export function leversAt(points: Readonly<Record<number, number>>): Levers {
  const heels = Object.keys(points)
    .map(Number)
    .sort((a, b) => a - b);
  return leversThrough(
    heels.map(radiansFromDegrees),
    heels.map((heel) => points[heel]!),
  );
}

/** Levers of a function and of its integral from upright, exact. */
export function leversOf(
  leverM: (heelRad: number) => number,
  areaM: (heelRad: number) => number,
  mostHeelRad = Math.PI / 2,
): Levers {
  return {
    mostHeelRad,
    leverM,
    areaMRad: (from, to) => areaM(to) - areaM(from),
  };
}

/** The same levers with the centre of gravity raised. */
export function raisedLevers(levers: Levers, byM: number): Levers {
  return {
    mostHeelRad: levers.mostHeelRad,
    leverM: (heel) => levers.leverM(heel) - byM * Math.sin(heel),
    areaMRad: (from, to) => levers.areaMRad(from, to) - byM * (Math.cos(from) - Math.cos(to)),
  };
}

const VESSEL: VesselParticulars = {
  name: 'Marram',
  lengthsM: { overall: 16.4, regulation: 15.2, waterline: 15, hull: 16.4, perpendiculars: 14.6 },
  services: ['fishing'],
  waters: 'coastal',
  builtOn: '2009-05-01',
  hulls: 'mono',
  decked: true,
  beamM: 5,
  depthM: 2.5,
  superstructureLengthM: 4.5,
  superstructureHeightM: 2,
  sheerAtLeastStandard: true,
  keelAreaM2: 0,
  bilge: 'round',
  assignedFreeboardM: 0.4,
};

/** Ample levers: every usual requirement is met with room, by beam trawlers too. */
const AMPLE = leversAt({
  0: 0,
  10: 0.16,
  20: 0.33,
  30: 0.47,
  40: 0.55,
  50: 0.55,
  60: 0.46,
  75: 0.2,
  90: -0.1,
});

export interface Made extends Partial<Omit<ConditionEvidence, 'vessel' | 'levers' | 'gmFluidM'>> {
  readonly vessel?: Partial<VesselParticulars>;
  readonly levers?: Levers;
  readonly gmM?: number;
  /** Standard uncertainty of KG, m; left out: nothing is known of any. */
  readonly kgUncertaintyM?: number;
  readonly degreesOfFreedom?: number;
}

/** An invented condition of *Marram*, the same to both sides; whatever is given stands instead. */
export function madeEvidence(made: Made = {}): ConditionEvidence {
  const { vessel, levers = AMPLE, gmM = 0.9, kgUncertaintyM, degreesOfFreedom, ...rest } = made;
  const kg: EvidenceCause = {
    cause: 'KG',
    degreesOfFreedom: degreesOfFreedom ?? Number.POSITIVE_INFINITY,
    moved: (times) => raisedEvidence({ ...made }, times * (kgUncertaintyM ?? 0)),
  };
  return {
    name: 'departure',
    kind: 'departure',
    displacementT: 60,
    kgM: 2.2,
    meanDraughtM: 1.6,
    trimM: 0.2,
    leastFreeboardM: 0.6,
    waterlineLengthM: 15,
    waterlineBeamM: 5,
    blockCoefficient: 0.5,
    windage: { areaM2: 40, heightOverWaterM: 2, leverM: 2.8 },
    moments: [],
    causes: kgUncertaintyM === undefined ? [] : [kg],
    uncertaintyKnown: kgUncertaintyM !== undefined,
    gmFluidM: () => gmM,
    levers: () => levers,
    deckEdgeRad: () => radiansFromDegrees(18),
    downfloodingRad: () => radiansFromDegrees(55),
    freeboardAtM: (_, heelRad) => 0.6 - 2.5 * Math.sin(heelRad),
    ...rest,
    vessel: { ...VESSEL, ...vessel },
  };
}

/** The same condition with KG higher, nothing else changed. */
export function raisedEvidence(made: Made, byM: number): ConditionEvidence {
  return madeEvidence({
    ...made,
    kgM: (made.kgM ?? 2.2) + byM,
    gmM: (made.gmM ?? 0.9) - byM,
    levers: raisedLevers(made.levers ?? AMPLE, byM),
  });
}
