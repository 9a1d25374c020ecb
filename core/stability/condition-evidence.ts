import type { LoadedCondition } from '../condition/condition.ts';
import { formulaMomentTM } from '../condition/free-surface.ts';
import { liquidsMoving } from '../condition/liquid-at-heel.ts';
import { Fault } from '../fault/fault.ts';
import { draughtsOf, type Hull } from '../hull/hull.ts';
import { type Hydrostatics, hydrostaticsAt } from '../hull/hydrostatics.ts';
import type { Waterline } from '../hull/waterline.ts';
import { type WaterlineExtent, waterlineExtent } from '../hull/waterline-extent.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import type { LiquidAboard } from '../reduction/liquids.ts';
import {
  type MassMoments,
  momentsCentre,
  momentsTimes,
  momentsTogether,
} from '../survey/mass-moments.ts';
import { wholeTank } from '../survey/tank-liquid.ts';
import { type AfloatAt, afloatAt, type Floating } from './afloat-at.ts';
import type {
  ConditionEvidence,
  ConditionKind,
  EvidenceCause,
  FreeSurfaceMethod,
  HeelingMoment,
  Levers,
  Side,
  VesselParticulars,
  Windage,
} from './evidence.ts';
import { type HeeledSide, heeledSide } from './heeled-side.ts';
import { isOpenIn, type OpeningKept } from './opening-use.ts';
import { restHeelRad } from './rest-heel.ts';
import { leversThrough } from './sampled-levers.ts';
import { type SideSamples, sideSamples } from './side-samples.ts';
import { type WindageInput, windageOf } from './windage.ts';

export interface EvidenceQuestion {
  readonly loaded: LoadedCondition;
  readonly kind: ConditionKind;
  readonly vessel: VesselParticulars;
  /** With those superstructures only that may count. */
  readonly hull: Hull;
  readonly densityTM3: number;
  readonly openings: readonly OpeningKept[];
  readonly windage: WindageInput | null;
  readonly heelingMoments: readonly HeelingMoment[];
}

/** Evidence with what else is worked out of the same samples. */
export interface FloatingEvidence extends ConditionEvidence {
  /** Heel she rests at by herself, starboard positive; null where she rests nowhere within 90 degrees. */
  readonly listRad: number | null;
  /** As she floats by herself; upright where she rests nowhere. */
  readonly resting: Waterline;
  readonly upright: Hydrostatics;
  /** The same with the centre of gravity higher by so much, trim held as it was at each heel. */
  raised(byM: number): FloatingEvidence;
  openingRad(side: Side, name: string): number | null;
}

/**
 * One loading condition as clauses ask about it. Both sides are cut exactly, free to trim, when they
 * are first asked for. Errors of the weights are followed one by one: where one moves the centre of
 * gravity in height or athwartships only, the same cuts serve; else the hull is cut anew, at the same
 * heels. Throws `hull-sinks`, `hull-no-rest`.
 */
export function conditionEvidence(question: EvidenceQuestion): FloatingEvidence {
  return evidenceWith(question, cutsOf(question, question.loaded.moments), { yM: 0, zM: 0 });
}

/** The hull cut for one weight and its place fore and aft. */
interface Cuts {
  readonly moments: MassMoments;
  readonly floating: Floating;
  readonly samples: (side: Side) => SideSamples;
  readonly sides: (side: Side) => HeeledSide;
  /** Upright: what does not change with the height of the centre of gravity. */
  readonly still: () => Still;
}

interface Still {
  readonly set: Hydrostatics;
  readonly extent: WaterlineExtent;
  readonly windage: Windage | null;
}

function cutsOf(question: EvidenceQuestion, moments: MassMoments, like?: Cuts): Cuts {
  const { hull, densityTM3, loaded } = question;
  const floating: Floating = {
    hull,
    volumeM3: moments.massT / densityTM3,
    displacementT: moments.massT,
    centre: momentsCentre(moments),
    moving: liquidsMoving(loaded.liquids),
  };
  const samples = remembered((side: Side) =>
    sideSamples(floating, side === 'starboard' ? 1 : -1, like?.samples(side)),
  );
  return {
    moments,
    floating,
    samples,
    sides: remembered((side: Side) => heeledSide(hull, samples(side))),
    still: once(() => stillOf(question, floating)),
  };
}

function stillOf({ hull, densityTM3, windage }: EvidenceQuestion, floating: Floating): Still {
  const { waterline } = afloatAt(floating, 0);
  const extent = waterlineExtent(hull, waterline);
  if (extent === null) throw new Fault('hull-sinks', hull.name, 'the water does not meet the hull');
  return {
    set: hydrostaticsAt(hull, waterline, densityTM3),
    extent,
    windage: windage && windageOf(hull, waterline, windage),
  };
}

function once<V>(work: () => V): () => V {
  const known = remembered((_: 'it') => work());
  return () => known('it');
}

function remembered<K, V>(work: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const before = known.get(key);
    if (before !== undefined) return before;
    const found = work(key);
    known.set(key, found);
    return found;
  };
}

interface Shift {
  readonly yM: number;
  readonly zM: number;
}

function evidenceWith(question: EvidenceQuestion, cuts: Cuts, shift: Shift): FloatingEvidence {
  const { loaded, hull, vessel } = question;
  const { displacementT, centre } = cuts.floating;
  const kgM = centre.zM + shift.zM;
  const { set, extent, windage } = cuts.still();
  const levers = leversByMethod(question, cuts, shift);
  const rest = once(() => {
    const listRad = restHeelRad((side) => levers(side, 'exact'));
    const waterline = listRad === null ? set.waterline : restingAt(cuts, listRad);
    return { listRad, waterline, draughts: draughtsOf(hull, waterline) };
  });
  const side = cuts.sides;
  return {
    name: loaded.name,
    kind: question.kind,
    vessel,
    displacementT,
    kgM,
    get meanDraughtM() {
      return rest().draughts.meanM;
    },
    get trimM() {
      return rest().draughts.aftM - rest().draughts.forwardM;
    },
    get leastFreeboardM() {
      const { listRad } = rest();
      if (listRad === null || listRad === 0) {
        return Math.min(side('starboard').freeboardM(0), side('port').freeboardM(0));
      }
      return side(listRad > 0 ? 'starboard' : 'port').freeboardM(Math.abs(listRad));
    },
    waterlineLengthM: extent.toXM - extent.fromXM,
    waterlineBeamM: extent.beamM,
    blockCoefficient:
      set.volumeM3 / ((extent.toXM - extent.fromXM) * extent.beamM * set.draughtMeanM),
    windage,
    moments: question.heelingMoments,
    causes: (loaded.causes ?? []).map(
      (cause): EvidenceCause => ({
        cause: cause.cause,
        degreesOfFreedom: cause.degreesOfFreedom,
        moved: (by) => movedBy(question, cuts, shift, momentsTimes(cause, by)),
      }),
    ),
    uncertaintyKnown: loaded.causes !== null,
    // The three ways are one here: each takes the upright surface's second moment from GM.
    gmFluidM: () => set.kmTransverseM - kgM - loaded.freeSurfaceTM / displacementT,
    levers,
    deckEdgeRad: (of) => side(of).deckEdgeRad(),
    downfloodingRad: (of, opened) => {
      const open = question.openings.filter((one) => isOpenIn(one, opened));
      const heels = open.map(({ opening }) => side(of).immersedRad(opening));
      return heels.reduce((a, b) => (a === null ? b : b === null ? a : Math.min(a, b)), null);
    },
    freeboardAtM: (of, heelRad) => side(of).freeboardM(heelRad),
    get listRad() {
      return rest().listRad;
    },
    get resting() {
      return rest().waterline;
    },
    upright: set,
    raised: (byM) => evidenceWith(question, cuts, { yM: shift.yM, zM: shift.zM + byM }),
    openingRad: (of, name) => {
      const found = question.openings.find(({ opening }) => opening.name === name);
      if (found === undefined) throw new Fault('loading-unknown', 'openings', name);
      return side(of).immersedRad(found.opening);
    },
  };
}

function restingAt({ floating, sides }: Cuts, listRad: number): Waterline {
  const near = sides(listRad < 0 ? 'port' : 'starboard').waterlineAt(Math.abs(listRad));
  return afloatAt(floating, listRad, near).waterline;
}

function movedBy(
  question: EvidenceQuestion,
  cuts: Cuts,
  shift: Shift,
  cause: MassMoments,
): FloatingEvidence {
  const { massT } = cuts.moments;
  if (cause.massT === 0 && cause.xTM === 0) {
    const further = { yM: shift.yM + cause.yTM / massT, zM: shift.zM + cause.zTM / massT };
    return evidenceWith(question, cuts, further);
  }
  const moments = momentsTogether([cuts.moments, cause]);
  return evidenceWith(question, cutsOf(question, moments, cuts), shift);
}

/** Righting levers by side and method, each drawn once. */
function leversByMethod(
  { loaded, hull }: EvidenceQuestion,
  cuts: Cuts,
  shift: Shift,
): (side: Side, method: FreeSurfaceMethod) => Levers {
  const { displacementT, centre } = cuts.floating;
  const lightshipT = loaded.rows.find(({ kind }) => kind === 'lightship')?.massT ?? 0;
  const formula = formulaLoss(loaded.liquids, lightshipT);
  const [yM, zM] = [centre.yM + shift.yM, centre.zM + shift.zM];
  const drawn = remembered((key: `${Side} ${FreeSurfaceMethod}`) => {
    const [side, method] = key.split(' ') as [Side, FreeSurfaceMethod];
    const { way, heelsRad, at } = cuts.samples(side);
    const lever = ({ heelRad, knM, liquidsM }: AfloatAt): number => {
      const solid = way * (knM - yM * Math.cos(heelRad) - zM * Math.sin(heelRad));
      if (method === 'exact') return solid - way * liquidsM;
      if (method === 'upright') {
        return solid - (loaded.freeSurfaceTM / displacementT) * Math.sin(Math.abs(heelRad));
      }
      return solid - formula(heelRad) / displacementT;
    };
    return leversThrough(heelsRad, at.map(lever), `${hull.name}: ${loaded.name}`);
  });
  return (side, method) => drawn(`${side} ${method}`);
}

const FORMULA_HEEL_RAD = radiansFromDegrees(30);
/** Surfaces that together heel her by less than this share of the lightship, t m a tonne, are left out. */
const SMALL_SHARE = 0.01;

/**
 * Moment of the slack tanks by the formula (RD 543/2007 annex II 5): all that are slack, each as if half
 * full, nothing where together they are small at 30 degrees (5(e), (f)).
 */
function formulaLoss(
  liquids: readonly LiquidAboard[],
  lightshipT: number,
): (heelRad: number) => number {
  const slack = liquids
    .map((liquid) => ({ ...liquid, whole: wholeTank(liquid.shape) }))
    .filter(({ volumeM3, whole }) => volumeM3 < whole.volumeM3 * (1 - 1e-9));
  const together = (heelRad: number) =>
    slack.reduce((sum, tank) => sum + formulaMomentTM(tank, heelRad), 0);
  return together(FORMULA_HEEL_RAD) < SMALL_SHARE * lightshipT ? () => 0 : together;
}
