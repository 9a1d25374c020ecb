import { describe, expect, it } from 'vitest';
import { deckEdgeAt } from '#core/hull/hull.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { linesOfBox, linesOfHull, pointsProposed } from '#ui/survey/vessel-lines.ts';

describe('the lines that are drawn', () => {
  it('are those of her hull from end to end', () => {
    const hull = marramHull();
    const lines = linesOfHull(hull);
    expect(lines.byHull).toBe(true);
    expect(lines.deck[0]?.[0]).toBe(hull.fromXM);
    expect(lines.deck.at(-1)?.[0]).toBe(hull.toXM);
    for (const [xM, zM] of lines.sheer) expect(zM).toBe(deckEdgeAt(hull, xM)?.zM);
    // The keel is nowhere above the deck edge, and they meet at the stem.
    for (const [k, [, zM]] of lines.keel.entries())
      expect(zM).toBeLessThanOrEqual(lines.sheer[k]![1] + 1e-9);
  });

  it('are a plain outline while only length and beam are known', () => {
    const lines = linesOfBox(20, 6);
    expect(lines.byHull).toBe(false);
    expect([lines.toXM - lines.fromXM, 2 * lines.halfBreadthM]).toEqual([20, 6]);
    expect(Math.max(...lines.deck.map(([, y]) => y))).toBe(3);
  });

  it('propose points evenly along both sides, on her deck edge', () => {
    const hull = marramHull();
    const points = pointsProposed(hull, 5);
    expect(points).toHaveLength(10);
    for (const { xM, halfBreadthM, heightM } of points) {
      const edge = deckEdgeAt(hull, xM)!;
      expect([halfBreadthM, heightM]).toEqual([edge.yM, edge.zM]);
    }
    const port = points.filter(({ side }) => side === 'port').map(({ xM }) => xM);
    const spaces = port.slice(1).map((xM, k) => xM - port[k]!);
    for (const space of spaces) expect(space).toBeCloseTo((hull.toXM - hull.fromXM) / 5, 12);
  });
});
