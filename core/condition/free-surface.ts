import type { LiquidAboard } from '../reduction/liquids.ts';
import { levelAtRest, type TankShape } from '../survey/tank-liquid.ts';
import type { Space } from './space.ts';

const LEVEL = { heelSlope: 0, trimSlope: 0 };

/**
 * Second moment of a liquid's upright surface about its own fore and aft axis, m4: l b3 / 12 for a
 * rectangle (Barrass & Derrett, Ship Stability for Masters and Mates). Between two sections the
 * integrals over the breadth run straight, as the liquid's area does, so that this is the exact slope
 * of the liquid's moment at upright. 0 where there is no surface.
 */
export function surfaceMomentM4(shape: TankShape, volumeM3: number): number {
  const rest = levelAtRest(shape, volumeM3, LEVEL);
  if (typeof rest === 'string') return 0;
  const chords = shape.sections.map(({ xM, outline }) => ({
    xM,
    ...chordOf(outline, rest.levelM),
  }));
  let [area, first, second] = [0, 0, 0];
  for (let k = 1; k < chords.length; k++) {
    const [aft, fore] = [chords[k - 1]!, chords[k]!];
    const half = (fore.xM - aft.xM) / 2;
    area += half * (aft.widthM + fore.widthM);
    first += half * (aft.firstM2 + fore.firstM2);
    second += half * (aft.secondM3 + fore.secondM3);
  }
  return area === 0 ? 0 : second - (first * first) / area;
}

/** Sum of second moment times density, t m: over the displacement it is the loss of GM. */
export function freeSurfaceTM({ shape, volumeM3, densityTM3 }: LiquidAboard): number {
  return densityTM3 * surfaceMomentM4(shape, volumeM3);
}

interface Chord {
  readonly widthM: number;
  readonly firstM2: number;
  readonly secondM3: number;
}

/** Where a level meets an outline: pairs of crossings, inside between each pair. */
function chordOf(
  outline: readonly { readonly yM: number; readonly zM: number }[],
  levelM: number,
): Chord {
  const crossings: number[] = [];
  outline.forEach((from, k) => {
    const to = outline[(k + 1) % outline.length]!;
    if (from.zM > levelM === to.zM > levelM) return;
    const share = (levelM - from.zM) / (to.zM - from.zM);
    crossings.push(from.yM + share * (to.yM - from.yM));
  });
  crossings.sort((a, b) => a - b);
  let [widthM, firstM2, secondM3] = [0, 0, 0];
  for (let k = 0; k + 1 < crossings.length; k += 2) {
    const [a, b] = [crossings[k]!, crossings[k + 1]!];
    widthM += b - a;
    firstM2 += (b * b - a * a) / 2;
    secondM3 += (b ** 3 - a ** 3) / 3;
  }
  return { widthM, firstM2, secondM3 };
}

/**
 * The coefficient k of RD 543/2007 annex II 5, from its formula: the table printed beside it has a row
 * copied wrongly (b/h 0.75). `breadthOverHeight` of the tank, heel of either sign under 90 degrees.
 */
export function freeSurfaceCoefficient(breadthOverHeight: number, heelRad: number): number {
  const heel = Math.abs(heelRad);
  if (heel === 0) return 0;
  const [sine, cosine, tangent] = [Math.sin(heel), Math.cos(heel), Math.tan(heel)];
  if (1 / tangent >= breadthOverHeight) {
    return (sine / 12) * (1 + tangent ** 2 / 2) * breadthOverHeight;
  }
  return (
    (cosine / 8) * (1 + tangent / breadthOverHeight) -
    (cosine / (12 * breadthOverHeight ** 2)) * (1 + 1 / tangent ** 2 / 2)
  );
}

/**
 * Heeling moment of a space half full by that method, t m: v b gamma k sqrt(delta), v its capacity, b
 * and h its greatest breadth and height, gamma its density, delta = v / (b l h) its block coefficient.
 */
export function formulaMomentTM(
  { shape, whole, densityTM3 }: Pick<Space, 'shape' | 'whole' | 'densityTM3'>,
  heelRad: number,
): number {
  const corners = shape.sections.flatMap(({ outline }) => outline);
  const b = spanOf(corners.map(({ yM }) => yM));
  const h = spanOf(corners.map(({ zM }) => zM));
  const l = spanOf(shape.sections.map(({ xM }) => xM));
  const delta = whole.volumeM3 / (b * l * h);
  return (
    whole.volumeM3 * b * densityTM3 * freeSurfaceCoefficient(b / h, heelRad) * Math.sqrt(delta)
  );
}

function spanOf(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}
