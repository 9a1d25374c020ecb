import { z } from 'zod';
import { Fault } from '../fault/fault.ts';
import {
  CONDITION_KINDS,
  FREE_SURFACE_METHODS,
  LENGTH_MEASURES,
  SERVICES,
  WATERS,
} from './evidence.ts';
import { dimensionsOfLimit, limit } from './rule-limit.ts';
import { DIMENSION_OF, quantity } from './rule-quantity.ts';

/**
 * The form of a rule set: one file, clauses as data. An authority's own set is written in this form
 * and needs no code. `heelwright schema rules` prints it.
 */

const id = z.string().regex(/^[a-z0-9][a-z0-9.-]{0,59}$/, 'lower case, digits, points and hyphens');
/** No control or formatting characters: what is printed is what stands there. */
const printable = z.string().regex(/^[^\p{Cc}\p{Cf}]*$/u, 'holds a control character');
const line = printable.trim().min(1).max(200);
const words = printable.trim().min(1).max(600);
const day = z.iso.date();

/** Who looked the clause up, and where. */
const checked = z.strictObject({ by: line, source: line, edition: line, page: line });

/** `seen`: read in the text named. `from-memory`: computes and never judges until somebody looked. */
const provenance = z.union([z.enum(['seen', 'from-memory', 'our-setting']), checked]);
export type Provenance = z.infer<typeof provenance>;

const requirement = z
  .strictObject({ quantity, bound: z.enum(['at-least', 'above', 'at-most', 'below']), limit })
  .superRefine((of, context) => {
    const wanted = DIMENSION_OF[of.quantity.kind];
    if (of.quantity.kind === 'not-computed') return;
    for (const found of dimensionsOfLimit(of.limit)) {
      if (found !== wanted)
        context.addIssue({
          code: 'custom',
          path: ['limit'],
          message: `${of.quantity.kind} is of dimension ${wanted}, its limit of ${found}`,
        });
    }
  });
export type Requirement = z.infer<typeof requirement>;

const way = z.strictObject({
  /** Where this way is known less well than its clause. */
  provenance: provenance.optional(),
  allOf: z.array(requirement).min(1).max(6),
});
export type Way = z.infer<typeof way>;

const clause = z.strictObject({
  id,
  /** Its number as printed. */
  clause: line,
  words,
  /** The formula as a person reads it. */
  formula: words,
  provenance,
  /** Asked of these conditions only; left out: of all. */
  conditions: z.array(z.enum(CONDITION_KINDS)).min(1).max(CONDITION_KINDS.length).optional(),
  /** Asked of vessels in one of these services only. */
  services: z.array(z.enum(SERVICES)).min(1).max(SERVICES.length).optional(),
  /** Asked of these hulls only. */
  hulls: z.enum(['mono', 'multi']).optional(),
  decked: z.boolean().optional(),
  /** Asked only where this is under the number (in m, m rad, degrees, times). */
  when: z.strictObject({ quantity, under: z.number() }).optional(),
  /** Limits times this in these services. */
  factor: z
    .strictObject({
      times: z.number().positive().max(10),
      services: z.array(z.enum(SERVICES)).min(1),
    })
    .optional(),
  /** Met in any one of these ways. */
  anyOf: z.array(way).min(1).max(6),
});
export type Clause = z.infer<typeof clause>;

const lengths = z
  .strictObject({
    measure: z.enum(LENGTH_MEASURES),
    /** From this on, and under that. Metres. */
    fromM: z.number().nonnegative().optional(),
    underM: z.number().positive().optional(),
  })
  .refine(
    ({ fromM, underM }) => fromM === undefined || underM === undefined || fromM < underM,
    'from is not below under',
  );

/** Outside this the set refuses to judge. What is left out is not asked. */
const appliesTo = z.strictObject({
  length: lengths.optional(),
  services: z.array(z.enum(SERVICES)).min(1).max(SERVICES.length).optional(),
  waters: z.array(z.enum(WATERS)).min(1).max(WATERS.length).optional(),
  builtFrom: day.optional(),
  builtBefore: day.optional(),
  decked: z.boolean().optional(),
});
export type AppliesTo = z.infer<typeof appliesTo>;

export const ruleSet = z
  .strictObject({
    heelwrightRules: z.literal(1),
    id,
    title: line,
    source: line,
    edition: line,
    /** What a reader must know of the set as a whole. */
    notes: z.array(words).max(20),
    appliesTo,
    freeSurface: z.enum(FREE_SURFACE_METHODS),
    clauses: z.array(clause).min(1).max(100),
  })
  .superRefine((set, context) => {
    const seen = new Set<string>();
    for (const [k, one] of set.clauses.entries()) {
      if (seen.has(one.id))
        context.addIssue({
          code: 'custom',
          path: ['clauses', k, 'id'],
          message: `${one.id} stands twice`,
        });
      seen.add(one.id);
    }
  });
export type RuleSet = z.infer<typeof ruleSet>;

/**
 * A rule set in parsed JSON of a stranger's. Throws `rules-shape` with the field and what is wrong
 * with it; the file's size is its reader's to limit.
 */
export function ruleSetFromJson(json: unknown, where: string): RuleSet {
  const read = ruleSet.safeParse(json);
  if (read.success) return read.data;
  const issue = read.error.issues[0];
  const field = issue?.path.map(String).join('.') || 'the whole';
  throw new Fault(
    'rules-shape',
    `${where}: ${field}`.slice(0, 300),
    (issue?.message ?? 'not of the agreed form').slice(0, 400),
  );
}
