import type { JudgedPicture, PictureSide } from '#core/limits/judged-picture.ts';
import type { Side } from '#core/stability/evidence.ts';

/** Where a picture of levers puts its numbers. */
export interface LeverScale {
  readonly leastM: number;
  readonly mostM: number;
  readonly ticksM: readonly number[];
  xOf(heelDeg: number): number;
  yOf(leverM: number): number;
}

const MOST_DEG = 90;
const STEPS = [0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5];

/** A scale that holds all the curves in a box of so many pixels; 0 is always in it. */
export function leverScale(
  sides: readonly PictureSide[],
  box: { readonly width: number; readonly height: number },
): LeverScale {
  const levers = sides.flatMap((side) => side.leversM);
  const [low, high] = [Math.min(0, ...levers), Math.max(0.1, ...levers)];
  const step = STEPS.find((one) => (high - low) / one <= 6) ?? STEPS.at(-1)!;
  const [leastM, mostM] = [Math.floor(low / step) * step, Math.ceil(high / step) * step];
  const count = Math.round((mostM - leastM) / step);
  return {
    leastM,
    mostM,
    ticksM: Array.from({ length: count + 1 }, (_, k) => leastM + k * step),
    xOf: (heelDeg) => (heelDeg / MOST_DEG) * box.width,
    yOf: (leverM) => (1 - (leverM - leastM) / (mostM - leastM)) * box.height,
  };
}

/** A curve as the path of an SVG. */
export function curvePath(side: PictureSide, scale: LeverScale): string {
  return side.heelsDeg
    .map((heelDeg, k) => {
      const [x, y] = [scale.xOf(heelDeg), scale.yOf(side.leversM[k]!)];
      return `${k === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`;
    })
    .join('');
}

/** The area under a curve up to a heel, as a closed path along the line of no lever. */
export function areaPath(side: PictureSide, scale: LeverScale, toDeg: number): string {
  const upTo = side.heelsDeg.filter((heelDeg) => heelDeg <= toDeg);
  if (upTo.length < 2) return '';
  const cut = { ...side, heelsDeg: upTo, leversM: side.leversM.slice(0, upTo.length) };
  const zero = scale.yOf(0).toFixed(1);
  return `${curvePath(cut, scale)}L${scale.xOf(upTo.at(-1)!).toFixed(1)} ${zero}L0 ${zero}Z`;
}

/** The side to draw: where the governing clause came out worst, else the one with the lower levers. */
export function sideToDraw(picture: JudgedPicture): Side {
  const governed = picture.answer.governs?.side;
  if (governed != null) return governed;
  const [starboard, port] = picture.sides.map((side) => Math.max(...side.leversM));
  return port! < starboard! ? 'port' : 'starboard';
}

export function sideOf(picture: JudgedPicture, side: Side): PictureSide {
  return picture.sides.find((one) => one.side === side)!;
}
