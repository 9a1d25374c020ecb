import { beforeAll, describe, expect, it } from 'vitest';
import { spacesFrom } from '#core/condition/space.ts';
import { spaceTable } from '#core/condition/space-table.ts';
import { stabilityBooklet } from '#core/report/booklet.ts';
import type { BookletAsked } from '#core/report/booklet-parts.ts';
import type { Block } from '#core/report/document.ts';
import { BOX_LOADING } from '#tests/core/stability/box-loading.ts';
import { boxAnswer } from '#tests/support/box-booklet.ts';
import { textsOf } from '#tests/support/reported-day.ts';

describe('the stability booklet', () => {
  let asked: BookletAsked;
  beforeAll(() => {
    const input = BOX_LOADING;
    asked = {
      ...{ input, answer: boxAnswer() },
      spaces: [...spacesFrom(input.spaces).values()].map(spaceTable),
      limits: [{ displacementT: 100, trimM: 0, kgM: 2.345, governing: ['170.173(b): a lever'] }],
      ...{ revision: 1, earlier: null, wall: '2026-05-04T09:00:00.000Z' },
    };
  });

  it('has its parts in order, every condition among them, and the authority’s page blank', () => {
    const heads = stabilityBooklet(asked).blocks.flatMap((block) =>
      block.kind === 'heading' && block.level === 1 ? [block.text] : [],
    );
    expect(heads).toEqual([
      'Every condition at a glance',
      'Particulars and reference planes',
      'Lightship and its basis',
      'Tanks and holds',
      'Openings and cross-connections',
      'Limits',
      ...asked.answer.conditions.map(({ condition }) => `Condition: ${condition}`),
      'To the skipper',
      'Assumptions and changes',
      'Declaration of the owner',
      'For the authority',
    ]);
  });

  it('prints every clause with value, limit and margin as the command answers them', () => {
    const texts = textsOf(stabilityBooklet(asked).blocks);
    for (const { ruleSets } of asked.answer.conditions)
      for (const { clauses } of ruleSets)
        for (const { words, figures } of clauses) {
          expect(
            texts.some((text) => text.startsWith(words)),
            words,
          ).toBe(true);
          for (const { value, dimension } of figures) {
            const digits = dimension === 'heel' ? 1 : dimension === 'area' ? 4 : 3;
            const printed = Math.abs(value).toFixed(digits);
            expect(
              texts.some((text) => text.includes(printed)),
              printed,
            ).toBe(true);
          }
        }
    expect(texts).toContain('2.345');
  });

  it('says YES in the wheelhouse only where every judged clause counts as met', () => {
    const { blocks } = stabilityBooklet(asked);
    const wheelhouse = blocks.find(
      (block) => block.kind === 'table' && block.columns.some(({ head }) => head === 'May she?'),
    );
    if (wheelhouse?.kind !== 'table') throw new Error('no page for the wheelhouse');
    asked.answer.conditions.forEach(({ ruleSets }, k) => {
      const clauses = ruleSets.flatMap(({ clauses: of }) => of);
      const wanted = clauses.every(({ countsAsMet }) => countsAsMet === null)
        ? 'not judged'
        : clauses.some(({ countsAsMet }) => countsAsMet === false)
          ? 'NO'
          : 'YES';
      expect(wheelhouse.rows[k]?.cells[2]).toBe(wanted);
    });
  });

  it('marks in the next revision what changed, against its own attachment', () => {
    const first = stabilityBooklet(asked);
    const kept = first.attachments.find(({ name }) => name === 'revision.json')!;
    const earlier = JSON.parse(new TextDecoder().decode(kept.bytes)) as Block[];
    const same = stabilityBooklet({ ...asked, earlier });
    expect(JSON.stringify(same.blocks)).not.toMatch(/"isChanged":true|"changed":/);
    const [condition, ...others] = asked.answer.conditions;
    const answer = {
      ...asked.answer,
      conditions: [{ ...condition!, gmFluidM: condition!.gmFluidM + 0.1 }, ...others],
    };
    const changed = stabilityBooklet({ ...asked, answer, revision: 2, earlier });
    expect(JSON.stringify(changed.blocks)).toMatch(/"isChanged":true/);
    expect(changed.foot).toContain('revision 2');
  });
});
