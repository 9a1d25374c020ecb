import { describe, expect, it } from 'vitest';
import { remediesFor } from '#core/limits/remedies.ts';
import { boxQuestion } from '#tests/core/stability/box-condition.ts';
import { GM_035, oneClause } from './gm-rule.ts';

const cargo = (massT: number, zM: number) => ({
  item: 'cargo',
  use: 'deck-cargo' as const,
  massT,
  at: { xM: 10, yM: 0, zM },
});

describe('remedies', () => {
  it('say how far a heavy thing comes down, and how much of it stays ashore, by GM alone', () => {
    const question = boxQuestion({ massT: 174.5, kgM: 2.3, items: [cargo(10, 5)] });
    const found = remediesFor(question, [GM_035])!;
    const tooHigh = (174.5 * 2.3 + 50) / 184.5 - 2.4;
    expect(found.failing).toHaveLength(1);
    expect(found.kgTooHighM).toBeGreaterThanOrEqual(tooHigh);
    expect(found.kgTooHighM).toBeLessThan(tooHigh + 1e-3);
    const [lower, ashore] = found.remedies;
    expect(lower).toMatchObject({ kind: 'lower', what: 'cargo', massT: 10 });
    if (lower!.kind !== 'lower') return;
    expect(lower!.byM).toBeCloseTo((tooHigh * 184.5) / 10, 1);
    expect(ashore).toMatchObject({ kind: 'leave-ashore', what: 'cargo' });
  });

  it('shut what is open, where that is what fails; nothing where all is met', () => {
    const hatch = {
      opening: { name: 'hatch', closing: 'weathertight' as const, xM: 10, yM: 3, zM: 1.7 },
      openFrom: 'open-at-sea' as const,
    };
    const floods = oneClause({ kind: 'downflooding', opened: 'open-at-sea' }, 20, 'deg');
    const question = { ...boxQuestion(), openings: [hatch] };
    const found = remediesFor(question, [floods])!;
    expect(found.kgTooHighM).toBeNull();
    expect(found.remedies).toEqual([{ kind: 'shut', what: 'hatch' }]);
    expect(remediesFor(boxQuestion(), [GM_035])).toEqual({
      failing: [],
      kgTooHighM: 0,
      remedies: [],
    });
  });

  it('press up or pump out the tank whose surface is too much', () => {
    // 9 t m over 184.5 t is 49 mm; solid GM is 39 mm over the limit
    const question = boxQuestion({
      massT: 178.5,
      kgM: 2.425,
      fillings: [{ space: 'tank', share: 0.5 }],
    });
    const found = remediesFor(question, [GM_035])!;
    expect(found.remedies.map(({ kind }) => kind)).toContain('fill');
    const fill = found.remedies.find(({ kind }) => kind === 'fill');
    expect(fill).toMatchObject({ what: 'tank' });
    expect(fill!.kind === 'fill' && fill!.massT).toBeCloseTo(6, 9);
  });

  it('advise nothing where the uncertainty is not known', () => {
    const question = boxQuestion({ kgM: 2.6 });
    const unknown = { ...question, loaded: { ...question.loaded, causes: null } };
    expect(remediesFor(unknown, [GM_035])).toBeNull();
  });
});
