import type { SessionResult } from '../session/session-result.ts';
import { fixed, signed } from './figure.ts';
import {
  marksOfResult,
  numberedTogether,
  type PlotMark,
  roundStep,
  scaleOf,
  sideBySide,
  ticksTo,
} from './line-plot.ts';
import { place, SVG_RULE, svgPath, svgPicture, svgShape, svgWords } from './svg.ts';

export const LINE_FIGURE = { width: 480, height: 400 } as const;
const LEFT = 52;
const RIGHT = 470;
const PLOT = { top: 10, bottom: 260 } as const;
const BELOW = { top: 292, bottom: 372 } as const;
/** Moments nearer than this share of the axis are one arrangement. */
const NEAR_SHARE = 0.04;

/**
 * Tangent of heel on heeling moment, port left, with the line; under it on the same axis what the
 * line leaves over, magnified, with the 95 % bar each reading claims. Points are numbered by state.
 */
export function figureLine(result: Pick<SessionResult, 'points' | 'line'>): string {
  const marks = marksOfResult(result);
  const scale = scaleOf(marks);
  const x = (momentTM: number) =>
    (LEFT + RIGHT) / 2 + (((RIGHT - LEFT) / 2) * momentTM) / scale.mostMomentTM;
  const near = NEAR_SHARE * scale.mostMomentTM;
  return svgPicture(LINE_FIGURE.width, LINE_FIGURE.height, 'Tangent of heel on heeling moment', [
    ...momentAxis(scale.momentTicks, x),
    ...upperPart(marks, result.line, x, near),
    ...lowerPart(marks, x, near),
  ]);
}

type Across = (momentTM: number) => number;

function momentAxis(ticks: readonly number[], x: Across): string[] {
  const decimals = decimalsOf(ticks);
  return [
    ...ticks.flatMap((tick) => [
      svgPath(
        `M${place(x(tick))} ${PLOT.top}V${PLOT.bottom}M${place(x(tick))} ${BELOW.top}V${BELOW.bottom}`,
        { colour: SVG_RULE, width: tick === 0 ? 1 : 0.5 },
      ),
      svgWords(x(tick), BELOW.bottom + 11, fixed(Math.abs(tick), decimals), { anchor: 'middle' }),
    ]),
    svgWords(LEFT, BELOW.bottom + 23, 'Port'),
    svgWords((LEFT + RIGHT) / 2, BELOW.bottom + 23, 'Heeling moment, t·m', { anchor: 'middle' }),
    svgWords(RIGHT, BELOW.bottom + 23, 'Starboard', { anchor: 'end' }),
  ];
}

function upperPart(
  marks: readonly PlotMark[],
  line: SessionResult['line'],
  x: Across,
  near: number,
): string[] {
  const { mostTangent, tangentTicks, mostMomentTM } = scaleOf(marks);
  const middle = (PLOT.top + PLOT.bottom) / 2;
  const y = (tangent: number) => middle - ((PLOT.bottom - PLOT.top) / 2) * (tangent / mostTangent);
  const decimals = decimalsOf(tangentTicks);
  const drawn = line === null ? [] : [lineAcross(line, 0.97 * mostMomentTM, x, y)];
  return [
    ...tangentTicks.flatMap((tick) => [
      svgPath(`M${LEFT} ${place(y(tick))}H${RIGHT}`, {
        colour: SVG_RULE,
        width: tick === 0 ? 1 : 0.5,
      }),
      svgWords(LEFT - 5, y(tick) + 2.6, fixed(tick, decimals), { anchor: 'end' }),
    ]),
    frame(PLOT),
    svgWords(LEFT + 6, PLOT.top + 12, 'Tangent of heel, starboard down positive'),
    ...drawn,
    ...marks.map((mark) => markAt(mark, x(mark.momentTM), y(mark.tangent), near, 4.6)),
    ...numberedTogether(marks, near).map((group) =>
      svgWords(x(group.momentTM) - 7, y(group.tangent) - 7, group.numbers, { anchor: 'end' }),
    ),
  ];
}

function lineAcross(
  { slopePerTM, interceptTangent }: NonNullable<SessionResult['line']>,
  most: number,
  x: Across,
  y: (tangent: number) => number,
): string {
  const at = (momentTM: number) =>
    `${place(x(momentTM))} ${place(y(interceptTangent + slopePerTM.value * momentTM))}`;
  return svgPath(`M${at(-most)}L${at(most)}`, { width: 1.1 });
}

function lowerPart(marks: readonly PlotMark[], x: Across, near: number): string[] {
  const reach = (mark: PlotMark) => Math.abs(mark.leftOver ?? 0) + (mark.halfWidth ?? 0);
  const most = 1.25 * Math.max(1e-6, ...marks.map(reach));
  const middle = (BELOW.top + BELOW.bottom) / 2;
  const y = (left: number) => middle - ((BELOW.bottom - BELOW.top) / 2) * (left / most);
  const steps = sideBySide(marks, near);
  const ticks = ticksTo(1000 * most, 2);
  return [
    frame(BELOW),
    svgWords(LEFT, BELOW.top - 5, 'Residual, tangent × 1000, with what each reading claims (95 %)'),
    ...ticks.map((tick) =>
      svgWords(LEFT - 5, y(tick / 1000) + 2.6, signed(tick, decimalsOf(ticks)), { anchor: 'end' }),
    ),
    svgPath(`M${LEFT} ${place(middle)}H${RIGHT}`, { width: 1 }),
    ...marks.flatMap((mark, k) => {
      if (mark.leftOver === null) return [];
      const across = x(mark.momentTM) + 11 * (steps[k] ?? 0);
      return [
        ...(mark.halfWidth === null
          ? []
          : [bar(across, y(mark.leftOver - mark.halfWidth), y(mark.leftOver + mark.halfWidth))]),
        markAt(mark, across, y(mark.leftOver), near, 3.6),
        svgWords(across + 4.5, y(mark.leftOver) - 4, String(mark.state), { size: 6 }),
      ];
    }),
  ];
}

function bar(x: number, from: number, to: number): string {
  const across = place(x);
  return svgPath(
    `M${across} ${place(from)}V${place(to)}M${place(x - 3)} ${place(from)}h6M${place(x - 3)} ${place(to)}h6`,
  );
}

function frame({ top, bottom }: { readonly top: number; readonly bottom: number }): string {
  return svgPath(`M${LEFT} ${top}H${RIGHT}V${bottom}H${LEFT}Z`);
}

/** A pointer to its own side; a disc near upright. */
function markAt(mark: PlotMark, x: number, y: number, near: number, size: number): string {
  const side = Math.abs(mark.momentTM) < near ? 0 : Math.sign(mark.momentTM);
  if (side === 0)
    return svgShape(
      `M${place(x - size)} ${place(y)}a${size} ${size} 0 1 0 ${2 * size} 0a${size} ${size} 0 1 0 ${-2 * size} 0Z`,
      !mark.hollow,
    );
  const tip = place(x + side * size);
  const back = place(x - side * size * 0.8);
  return svgShape(
    `M${tip} ${place(y)}L${back} ${place(y - size)}V${place(y + size)}Z`,
    !mark.hollow,
  );
}

/** Decimals that tell the ticks of an axis apart. */
function decimalsOf(ticks: readonly number[]): number {
  const most = Math.max(...ticks.map(Math.abs), 0);
  const step =
    ticks.length > 1 ? Math.abs((ticks[1] ?? 0) - (ticks[0] ?? 0)) : roundStep(most || 1, 3);
  return Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
}
