import { describe, expect, it } from 'vitest';
import type { PictureSide } from '#core/limits/judged-picture.ts';
import { areaPath, curvePath, leverScale } from '../../../ui/loading/lever-plot.ts';

const side = (leversM: number[]): PictureSide => ({
  side: 'port',
  heelsDeg: leversM.map((_, k) => k * 30),
  leversM,
  deckEdgeDeg: null,
  floodsDeg: { weathertight: null, 'open-at-sea': null, 'open-at-worst': null },
});
const box = { width: 900, height: 200 };

describe('the picture of the levers', () => {
  it('holds every curve and nought, on ticks that read', () => {
    const scale = leverScale([side([0, 0.31, 0.2, -0.35]), side([0, 0.4, 0.3, 0.1])], box);
    expect(scale.leastM).toBeLessThanOrEqual(-0.35);
    expect(scale.mostM).toBeGreaterThanOrEqual(0.4);
    expect(scale.ticksM.length).toBeLessThanOrEqual(8);
    expect(scale.yOf(scale.mostM)).toBe(0);
    expect(scale.yOf(scale.leastM)).toBe(200);
    expect(scale.xOf(45)).toBe(450);
  });

  it('draws a curve and the area under it as far as it is asked', () => {
    const curve = side([0, 0.3, 0.2, 0.1]);
    const scale = leverScale([curve], box);
    expect(curvePath(curve, scale).match(/[ML]/g)).toHaveLength(4);
    expect(areaPath(curve, scale, 60)).toMatch(/^M0\.0 .*L600\.0 200\.0L0 200\.0Z$/);
    expect(areaPath(curve, scale, 10)).toBe('');
  });
});
