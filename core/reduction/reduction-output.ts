import { z } from 'zod';
import { hullEvidence } from '../hull/hull-evidence.ts';

/**
 * What reducing a test written by hand gives, as plain data. Each figure stands with one standard
 * uncertainty, its degrees of freedom (null: not limited by a count), half the width of its 95 %
 * interval and its unit. Nothing is rounded.
 */
const finite = z.number();
const dof = z.number().positive().nullable();
const figure = z.strictObject({
  value: finite,
  standardUncertainty: z.number().nonnegative(),
  degreesOfFreedom: dof,
  halfWidth95: z.number().nonnegative(),
  unit: z.string(),
});
export type Figure = z.infer<typeof figure>;

const fTest = z
  .strictObject({ f: finite, upperDof: finite, lowerDof: finite, probability: finite })
  .nullable();

const budget = z.array(
  z.strictObject({
    cause: z.string(),
    gm: finite,
    kg: finite.nullable(),
    unit: z.string(),
    degreesOfFreedom: dof,
  }),
);

const answer = z.strictObject({
  /** Null without a displacement. */
  gmFluid: figure.nullable(),
  /** KM less fluid GM: virtual, the free surface of the tanks still in it. */
  kgFluid: figure.nullable(),
  /** Displacement times fluid GM: moment for a tangent of one. */
  stiffness: figure,
  /** The list before any shift, as the mean of the instruments shows it. */
  listDeg: finite,
  /** Each cause's own standard uncertainty in GM (in stiffness without a displacement) and KG. */
  budget,
});

/** The exact equation of a steady heel, the tanks' liquids in it. */
const exactAnswer = z.strictObject({
  gmFluid: figure,
  /** The liquids held still. */
  gmSolid: figure,
  kgSolid: figure,
  km: finite,
  /** GM lost upright to free surfaces. */
  freeSurface: finite,
  stiffness: figure,
  listDeg: finite,
  budget,
});

/** How she floats as inclined. */
const floatOutput = z.strictObject({
  displacement: figure,
  km: figure,
  lcb: figure,
  tcb: finite,
  vcb: finite,
  metacentreMovement: finite.nullable(),
  density: figure,
  draughtAft: finite,
  draughtMidships: finite,
  draughtForward: finite,
  /** Positive by the stern. */
  trim: finite,
  heelDeg: finite,
  /** Hull's middle below the chord of its ends; hogged below zero. */
  sag: finite,
  /** Mass that sinks her by one unit of length. */
  massPerDraught: finite,
  /** What points measured ashore and spot checks leave open; null where there were none. */
  hullKnown: hullEvidence.nullable(),
  points: z.array(
    z.strictObject({
      point: z.string(),
      leftOver: finite,
      /** Off the waterline through all others; null where nothing is left over to tell. */
      off: finite.nullable(),
      probability: finite.nullable(),
      bad: z.boolean(),
    }),
  ),
  liquids: z.array(z.strictObject({ tank: z.string(), volume: finite, mass: finite })),
});

/** The vessel without what is no part of her, with what is missing. */
const lightshipOutput = z.strictObject({
  mass: figure,
  /** Forward of the after perpendicular, to starboard, over the baseline. */
  lcg: figure,
  tcg: figure,
  vcg: figure,
  asInclined: z.strictObject({ mass: finite, lcg: finite, tcg: finite, vcg: finite }),
  provisional: z.boolean(),
  deducted: finite,
  added: finite,
  toBeFitted: finite,
  budget: z.array(
    z.strictObject({ cause: z.string(), mass: finite, lcg: finite, tcg: finite, vcg: finite }),
  ),
});

const side = z.strictObject({ stiffness: finite, unit: z.string() }).nullable();

export const reductionOutput = z.strictObject({
  heelwrightReduction: z.literal(1),
  test: z.string(),
  source: z.string().nullable(),
  units: z.strictObject({ mass: z.string(), length: z.string(), moment: z.string() }),
  headline: z.enum(['classical', 'metacentre-movement', 'exact']),
  classical: answer,
  metacentreMovement: answer.nullable(),
  /** Null where the hull is not known. */
  exact: exactAnswer.nullable(),
  float: floatOutput.nullable(),
  /** Null without a survey. */
  lightship: lightshipOutput.nullable(),
  /** What is to be thought over, with what it rests on. */
  advice: z.array(
    z.strictObject({
      code: z.string(),
      where: z.string(),
      found: finite.nullable(),
      limit: finite.nullable(),
      unit: z.string(),
      means: z.string(),
      remedy: z.string(),
      clause: z.string(),
    }),
  ),
  /** The classical line. */
  line: z.strictObject({
    slope: figure,
    statesDof: finite,
    withinDof: finite,
    stateDeviationDeg: finite.nullable(),
    readingDeviationDeg: finite.nullable(),
    /** Do the instruments of a state share an error; do they differ in intercept, in slope? */
    stateEffect: fTest,
    intercepts: fTest,
    slopes: fTest,
  }),
  instruments: z.array(
    z.strictObject({
      instrument: z.string(),
      readings: finite,
      /** Its share in the mean of a state that all are read in. */
      weight: finite,
      intercept: figure,
      interceptDeg: finite,
      /** The instrument on a line of its own. */
      alone: z
        .strictObject({ slope: figure, intercept: figure, gmFluid: figure.nullable() })
        .nullable(),
    }),
  ),
  points: z.array(
    z.strictObject({
      state: z.string(),
      heelingMoment: finite,
      /** With rise of weights and, in that headline, the metacentre's movement taken out. */
      momentFitted: finite,
      tangent: finite,
      fittedTangent: finite,
      leftOverDeg: finite,
      readings: z.array(
        z.strictObject({ instrument: z.string(), tangent: finite, leftOverDeg: finite }),
      ),
    }),
  ),
  /** Stiffness from each change of moment alone, the two states' means against each other. */
  shiftByShift: z.array(
    z.strictObject({ from: z.string(), to: z.string(), stiffness: finite, unit: z.string() }),
  ),
  /** The headline without one state, without one instrument; null where no line is left. */
  leaveOneOut: z.array(
    z.strictObject({ left: z.string(), gm: finite.nullable(), change: finite.nullable() }),
  ),
  /** Each shift of one weight: the distance its mass acts as, against the one written. */
  moves: z.array(
    z.strictObject({
      state: z.string(),
      weight: z.string(),
      distance: finite,
      actsAs: finite,
      standardError: finite.nullable(),
      probability: finite.nullable(),
      /** The same on each pendulum and water tube, in the unit its length is given in. */
      onBatten: z.array(
        z.strictObject({ instrument: z.string(), written: finite, seen: finite, off: finite }),
      ),
    }),
  ),
  /** Against the scatter of repeated states; null without repeats. */
  lackOfFit: fTest,
  /** What to measure again, as half the 95 % interval of KG (of GM without KM); may one stop? */
  worth: z.strictObject({
    halfWidth95: finite,
    anglesShare: finite,
    largestCause: z.string(),
    mayStop: z.boolean(),
    why: z.enum(['angles-under-a-third', 'nothing-worth-its-time', 'worth-going-on', 'few-states']),
    more: z.array(
      z.strictObject({
        what: z.enum(['next-shift', 'minute-each', 'freeboard-again', 'freeboards-all-again']),
        minutes: finite,
        halfWidth95After: finite,
        bought: finite,
        boughtAnHour: finite,
      }),
    ),
  }),
  /** May the rest of the eight movements be left out, by the skip rules that are switched on? */
  mayOmit: z.enum(['not-yet', 'not-straight', 'not-allowed', 'movement-eight', 'all-that-is-left']),
  /** Each side on its own line, and the zero between them. */
  sides: z.strictObject({
    starboard: side,
    port: side,
    zeroJump: z.strictObject({ jumpDeg: finite, stiffness: finite, test: fTest }).nullable(),
  }),
  /** What all instruments drifted over the whole time, as tangent; null where none is taken off. */
  drift: figure.nullable(),
  diagnosis: z.strictObject({
    troubleSeen: z.boolean(),
    verdict: z.string(),
    shapes: z.array(
      z.strictObject({
        shape: z.string(),
        seen: z.boolean(),
        words: z.string(),
        t: finite.nullable(),
        degreesOfFreedom: finite.nullable(),
        probability: finite.nullable(),
        states: z.array(z.string()),
        instrument: z.string().nullable(),
        weight: z.string().nullable(),
      }),
    ),
    /** What may be wrong, the likeliest first; empty: nothing is named without evidence. */
    causes: z.array(
      z.strictObject({
        cause: z.string(),
        words: z.string(),
        todo: z.string(),
        /** Natural logarithm of how much better all evidence is explained by it than by nothing wrong. */
        support: finite,
        evidence: z.array(
          z.strictObject({ from: z.string(), speaksFor: z.boolean(), words: z.string() }),
        ),
        states: z.array(z.string()),
        instrument: z.string().nullable(),
        weight: z.string().nullable(),
      }),
    ),
  }),
  cannotShow: z.array(z.strictObject({ what: z.string(), evidence: z.string() })),
  /** Uncertainties nobody stated, counted as none. */
  notStated: z.array(z.string()),
});
export type ReductionOutput = z.infer<typeof reductionOutput>;
