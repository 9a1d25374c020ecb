import { z } from 'zod';
import { CONDITION_KINDS, FREE_SURFACE_METHODS, OPENING_STATES, SIDES } from './evidence.ts';

/** What the command `stability` answers. Metres, tonnes, degrees, m rad; ship axes. Nothing is rounded. */
const finite = z.number();
const angle = finite.nullable().describe('degrees; null: not within 90');
const text = z.string();
const side = z.enum(SIDES);

const figure = z.strictObject({
  quantity: text,
  dimension: z.enum(['area', 'length', 'heel', 'ratio']).describe('m rad, m, degrees, times'),
  bound: z.enum(['at-least', 'above', 'at-most', 'below']),
  value: finite,
  limit: finite,
  margin: finite.describe('positive on the right side'),
  expandedUncertainty: finite.nullable().describe('half the 95 % interval of the margin'),
  chance: finite.nullable().describe('that the true margin is on the right side'),
  note: text.nullable(),
  fromMemory: z.boolean(),
  outcome: z.enum(['met', 'met-within-uncertainty', 'not-met']),
});

const uncertain = z.strictObject({
  value: finite,
  standardUncertainty: finite,
  degreesOfFreedom: finite.nullable(),
});
const sinceTests = z.strictObject({
  growth: z.array(
    z.strictObject({
      figure: z.enum(['mass', 'lcg', 'tcg', 'vcg']),
      change: finite.describe('from the first test to the last, t or m'),
      aYear: z.strictObject({
        value: finite,
        standardUncertainty: finite.nullable().describe('null: not every test states one'),
      }),
      moreThanChance: z
        .boolean()
        .nullable()
        .describe('null: not every test states its uncertainty'),
    }),
  ),
  periods: z.array(
    z.strictObject({
      condition: text,
      fromS: finite,
      toS: finite,
      differenceS: uncertain,
      gmLostShare: finite,
      moreThanChance: z.boolean(),
    }),
  ),
  lightshipNow: z
    .strictObject({ massT: finite, lcgM: finite, tcgM: finite, vcgM: finite, aggregateT: finite })
    .describe('the last test with the changes since'),
  clauses: z.array(
    z.strictObject({
      clause: text,
      provenance: z.enum(['seen', 'from-memory']),
      words: text,
      value: finite,
      limit: finite,
      unit: z.enum(['t', 'm', 'years']),
      asksFor: text,
      answer: z.enum(['due', 'not-due', 'not-due-within-uncertainty', 'from-memory']),
    }),
  ),
});
export type SinceTests = z.infer<typeof sinceTests>;

const clause = z.strictObject({
  clause: text,
  printed: text,
  words: text,
  formula: text,
  provenance: z.union([
    text,
    z.strictObject({ by: text, source: text, edition: text, page: text }),
  ]),
  verdict: z.enum(['met', 'met-within-uncertainty', 'not-met', 'not-judged', 'not-asked']),
  countsAsMet: z.boolean().nullable().describe('within uncertainty it does not, unless signed'),
  notJudged: z.strictObject({ code: text, detail: text }).nullable(),
  computed: z.enum(['met', 'met-within-uncertainty', 'not-met']).nullable(),
  side: side.nullable(),
  freeSurface: z.enum(FREE_SURFACE_METHODS).nullable(),
  figures: z.array(figure),
});

const setVerdict = z.strictObject({
  ruleSet: text,
  title: text,
  source: text,
  edition: text,
  notes: z.array(text),
  outside: z.array(
    z.strictObject({
      code: z.enum(['not-given', 'outside']),
      field: text,
      wanted: text,
      found: text,
    }),
  ),
  clauses: z.array(clause),
});

const sideAnswer = z.strictObject({
  side,
  points: z.array(
    z.strictObject({
      heelDeg: finite,
      exactM: finite.describe('lever with every liquid level at that heel'),
      uprightM: finite.describe('with the upright second moments as a loss of GM'),
      formulaM: finite.describe('by the coefficient k of RD 543/2007 annex II 5'),
    }),
  ),
  maximum: z.strictObject({ heelDeg: finite, leverM: finite }),
  vanishingDeg: angle,
  deckEdgeDeg: angle,
  openings: z.array(
    z.strictObject({
      opening: text,
      openFrom: z.enum(OPENING_STATES).nullable().describe('null: kept shut'),
      immersedDeg: angle,
    }),
  ),
  areasMRad: z.strictObject({ to30: finite, to40: finite, from30To40: finite }),
});

const conditionAnswer = z.strictObject({
  condition: text,
  kind: z.enum(CONDITION_KINDS),
  rows: z.array(
    z.strictObject({
      what: text,
      kind: z.enum(['lightship', 'liquid', 'item']),
      massT: finite,
      xM: finite,
      yM: finite,
      zM: finite,
      freeSurfaceTM: finite,
    }),
  ),
  displacementT: finite,
  lcgM: finite,
  tcgM: finite,
  kgM: finite.describe('liquids as if solid'),
  kgUncertainty: z
    .strictObject({ standardUncertainty: finite, halfWidth95: finite, upper95M: finite })
    .nullable()
    .describe('null: not known; upper95M one-sided'),
  kmTransverseM: finite,
  freeSurfaceTM: finite,
  gmSolidM: finite,
  gmFluidM: finite,
  draughtAftM: finite,
  draughtForwardM: finite,
  draughtMeanM: finite,
  trimM: finite.describe('by the stern'),
  listDeg: angle.describe('to starboard; null: she rests nowhere within 90 degrees'),
  leastFreeboardM: finite,
  sides: z.array(sideAnswer),
  ruleSets: z.array(setVerdict),
});
export type ConditionAnswer = z.infer<typeof conditionAnswer>;

export const stabilityOutput = z.strictObject({
  heelwrightStability: z.literal(1),
  vessel: text,
  invented: z.boolean(),
  lightshipSource: text.nullable(),
  notCounted: z.array(text),
  questions: z.array(z.strictObject({ code: text, where: text })),
  /** Over her tests, and whether a new one is due; null: no history is given. */
  sinceTests: sinceTests.nullable(),
  conditions: z.array(conditionAnswer),
  /** Words that stand with every answer. */
  standing: z.array(text),
});
export type StabilityOutput = z.infer<typeof stabilityOutput>;
