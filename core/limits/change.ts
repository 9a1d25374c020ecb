import { z } from 'zod';
import type { ConditionRow } from '../condition/condition.ts';
import { Fault } from '../fault/fault.ts';
import type { EvidenceQuestion } from '../stability/condition-evidence.ts';
import { momentsAt, momentsCentre, momentsTogether } from '../survey/mass-moments.ts';

const metres = z.number().min(-450).max(450);
const place = z.strictObject({ xM: metres, yM: metres, zM: metres });

/** What a skipper asks: a mass put aboard, taken off, or moved. */
export const loadChange = z.discriminatedUnion('act', [
  z.strictObject({
    act: z.enum(['add', 'remove']),
    what: z.string().trim().min(1).max(120),
    massT: z.number().nonnegative().max(100_000),
    at: place,
  }),
  z.strictObject({
    act: z.literal('move'),
    what: z.string().trim().min(1).max(120),
    massT: z.number().nonnegative().max(100_000),
    at: place,
    to: place,
  }),
]);
export type LoadChange = z.infer<typeof loadChange>;

/**
 * The condition with the change made, everything else as it was. Throws `input-range` where more is
 * taken off than she weighs.
 */
export function withChange(question: EvidenceQuestion, change: LoadChange): EvidenceQuestion {
  const { loaded } = question;
  const rows = rowsOf(change);
  const moments = momentsTogether([
    loaded.moments,
    ...rows.map(({ massT, at }) => momentsAt(massT, at)),
  ]);
  if (!(moments.massT > 0))
    throw new Fault('input-range', change.what, `${change.massT} t off ${loaded.moments.massT} t`);
  return {
    ...question,
    loaded: {
      ...loaded,
      rows: [...loaded.rows, ...rows],
      moments,
      centre: momentsCentre(moments),
    },
  };
}

function rowsOf(change: LoadChange): ConditionRow[] {
  const row = (massT: number, at: ConditionRow['at']): ConditionRow => ({
    what: change.what,
    kind: 'item',
    massT,
    at,
    freeSurfaceTM: 0,
  });
  switch (change.act) {
    case 'add':
      return [row(change.massT, change.at)];
    case 'remove':
      return [row(-change.massT, change.at)];
    case 'move':
      return [row(-change.massT, change.at), row(change.massT, change.to)];
  }
}
