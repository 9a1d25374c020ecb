import { expect, it } from 'vitest';
import { bookletCondition, judged, notMet } from '#core/report/booklet-condition.ts';
import { boxAnswer } from '#tests/support/box-booklet.ts';
import { textsOf } from '#tests/support/reported-day.ts';

it('prints weights, levers to both sides and the verdict of each clause', () => {
  const [one] = boxAnswer().conditions;
  const texts = textsOf(bookletCondition(one!));
  for (const { what } of one!.rows) expect(texts).toContain(what);
  expect(texts).toEqual(expect.arrayContaining(['starboard', 'port', 'Together']));
  const clauses = one!.ruleSets.flatMap(({ clauses: of }) => of);
  expect(judged(one!)).toBe(clauses.filter(({ countsAsMet }) => countsAsMet !== null).length);
  expect(notMet(one!)).toHaveLength(
    clauses.filter(({ countsAsMet }) => countsAsMet === false).length,
  );
});
