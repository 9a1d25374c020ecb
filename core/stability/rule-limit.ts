import { z } from 'zod';
import type { Dimension } from './rule-quantity.ts';

/** Units a limit may be printed in. m rad, m deg and ft deg stand side by side in the texts. */
const UNITS = {
  'm.rad': { dimension: 'area', times: 1 },
  'm.deg': { dimension: 'area', times: Math.PI / 180 },
  'ft.deg': { dimension: 'area', times: (0.3048 * Math.PI) / 180 },
  m: { dimension: 'length', times: 1 },
  mm: { dimension: 'length', times: 0.001 },
  ft: { dimension: 'length', times: 0.3048 },
  deg: { dimension: 'heel', times: 1 },
  times: { dimension: 'ratio', times: 1 },
} as const satisfies Record<string, { dimension: Dimension; times: number }>;

const unit = z.enum(Object.keys(UNITS) as [keyof typeof UNITS, ...(keyof typeof UNITS)[]]);

const range = z
  .strictObject({ least: z.number(), most: z.number() })
  .refine(({ least, most }) => least <= most, 'least is above most');

const plain = [
  /** A number as printed. */
  z.strictObject({ kind: z.literal('fixed'), value: z.number(), unit }),
  /** base + slope (heel of the greatest lever's shortfall under `underDeg`), m rad; never under base. */
  z.strictObject({
    kind: z.literal('area-by-maximum'),
    baseMRad: z.number().positive(),
    perDegMRad: z.number().nonnegative(),
    underDeg: z.number().min(0).max(90),
  }),
  /** A share of the heel at which the deck edge comes under. */
  z.strictObject({ kind: z.literal('deck-edge-share'), share: z.number().positive().max(2) }),
  /** The freeboard her authority assigned, typed with her particulars. */
  z.strictObject({ kind: z.literal('assigned-freeboard') }),
  /**
   * Simplified least GM of a decked vessel (IMO A.207(VII)): constant + 2 B [c0 + c1 (f/B) +
   * c2 (f/B)^2 + c3 (B/D) + c4 (ls/L)], within its ranges only.
   */
  z.strictObject({
    kind: z.literal('simplified-gm'),
    constantM: z.number(),
    coefficients: z.tuple([z.number(), z.number(), z.number(), z.number(), z.number()]),
    freeboardToBeam: range,
    superstructureToLengthUnder: z.number().positive(),
    beamToDepth: range,
    superstructureHeightM: z.number().nonnegative(),
  }),
] as const;

const plainLimit = z.discriminatedUnion('kind', plain);

/** A limit: a number, or one of a few kinds whose parameters are data. */
export const limit = z.discriminatedUnion('kind', [
  ...plain,
  z.strictObject({ kind: z.literal('least-of'), of: z.array(plainLimit).min(2).max(4) }),
]);
export type Limit = z.infer<typeof limit>;
export type PlainLimit = z.infer<typeof plainLimit>;

/** What a limit is measured in. */
export function dimensionsOfLimit(of: Limit): readonly Dimension[] {
  switch (of.kind) {
    case 'fixed':
      return [UNITS[of.unit].dimension];
    case 'area-by-maximum':
      return ['area'];
    case 'deck-edge-share':
      return ['heel'];
    case 'assigned-freeboard':
    case 'simplified-gm':
      return ['length'];
    case 'least-of':
      return of.of.flatMap(dimensionsOfLimit);
  }
}

/** A printed number in m, m rad, degrees or times. */
export function fixedLimit(of: {
  readonly value: number;
  readonly unit: z.infer<typeof unit>;
}): number {
  return of.value * UNITS[of.unit].times;
}
