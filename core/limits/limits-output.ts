import { z } from 'zod';
import { stabilityOutput } from '../stability/stability-output.ts';

/** What of limits the command `stability` answers when it is asked. Metres, tonnes; nothing is rounded. */
const finite = z.number();
const text = z.string();
const clause = z.strictObject({ ruleSet: text, clause: text, printed: text, words: text });

const limitingKgRow = z.strictObject({
  displacementT: finite,
  trimM: finite.describe('upright, between perpendiculars, by the stern'),
  kgM: finite.nullable().describe('no tank slack: of KG with the free surfaces in it; null: none'),
  governing: z.array(clause).describe('not met just above, or at any KG'),
});

const wheelhouse = z.strictObject({
  heading: z.strictObject({
    takenAsShut: z.array(text),
    openAtSea: z.array(text),
    openAtWorst: z.array(text),
    neverShut: z.array(text),
    notJudged: z.array(text),
  }),
  rows: z.array(
    z.strictObject({
      condition: text,
      displacementT: finite,
      meanDraughtM: finite,
      trimM: finite,
      leastFreeboardM: finite,
      slackTanks: z.array(text),
      upperKgM: finite.nullable().describe('upper one-sided 95 %; null: not known, kept out'),
      limitingKgM: finite.nullable(),
      governing: z.array(clause),
      within: z.boolean(),
    }),
  ),
});

const remedy = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('shut'), what: text }),
  z.strictObject({ kind: z.enum(['fill', 'empty']), what: text, massT: finite }),
  z.strictObject({ kind: z.literal('lower'), what: text, massT: finite, byM: finite }),
  z.strictObject({ kind: z.literal('leave-ashore'), what: text, massT: finite }),
]);

const remedies = z.strictObject({
  condition: text,
  failing: z.array(clause),
  kgTooHighM: finite.nullable().describe('null: no lower KG helps'),
  remedies: z.array(remedy).describe('each by itself; the least trouble first'),
});

const figures = z.strictObject({
  displacementT: finite,
  kgM: finite,
  gmFluidM: finite,
  meanDraughtM: finite,
  trimM: finite,
  leastFreeboardM: finite,
  listDeg: finite.nullable(),
  outcome: z.enum(['met', 'not-met', 'nothing-judged']),
  governs: text.nullable().describe('the clause with the least in hand, or not met'),
});

const whatIf = z.strictObject({
  condition: text,
  change: text,
  before: figures,
  after: figures,
  most: z
    .strictObject({
      massT: finite,
      withinT: finite,
      beyondT: finite.nullable().describe('not looked for beyond'),
      governs: text.nullable(),
    })
    .nullable()
    .describe('the most of it there with every judged clause counting as met'),
});

/** Null where it was not asked for. */
export const limitsOutput = z.strictObject({
  limitingKg: z.array(limitingKgRow).nullable(),
  wheelhouse: wheelhouse.nullable(),
  remedies: z
    .array(remedies)
    .nullable()
    .describe(
      'of conditions with something not met; without a known uncertainty nothing is advised',
    ),
  whatIf: z.array(whatIf).nullable(),
});
export type LimitsOutput = z.infer<typeof limitsOutput>;

/** The whole answer of the command `stability`. */
export const loadingOutput = stabilityOutput.extend({
  limits: limitsOutput.nullable().describe('null: nothing of it was asked'),
});
