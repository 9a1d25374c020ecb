import { fixed } from './figure.ts';
import { roundStep } from './line-plot.ts';
import { place, SVG_RULE, svgPath, svgPicture, svgShape, svgWords } from './svg.ts';

export const FREEBOARD_FIGURE = { width: 480, height: 190 } as const;
const LEFT = 52;
const RIGHT = 466;
const TOP = 12;
const BOTTOM = 158;
const SIZE = 3.6;

export interface DrawnFreeboard {
  readonly point: string;
  readonly side: 'port' | 'starboard';
  readonly xM: number;
  /** Height of the water over the baseline at it, and what the fitted waterline leaves over; null: no fit. */
  readonly waterM: number;
  readonly leftOverM: number | null;
}

/** Height of the water along the vessel by each freeboard, both sides, with the waterline fitted to them. */
export function figureFreeboards(points: readonly DrawnFreeboard[]): string {
  const heights = points.flatMap(({ waterM, leftOverM }) => [waterM, waterM - (leftOverM ?? 0)]);
  const xs = points.map(({ xM }) => xM);
  const [aft, fore] = [Math.min(...xs, 0), Math.max(...xs, 1)];
  const least = Math.min(...heights);
  const most = Math.max(...heights);
  const reach = Math.max(most - least, 0.02) * 1.25;
  const middle = (most + least) / 2;
  const x = (xM: number) => LEFT + ((RIGHT - LEFT) * (xM - aft)) / (fore - aft);
  const y = (heightM: number) => (TOP + BOTTOM) / 2 - ((BOTTOM - TOP) * (heightM - middle)) / reach;
  const step = roundStep(reach, 4);
  const first = Math.ceil((middle - reach / 2) / step);
  const ticks = Array.from(
    { length: Math.floor((middle + reach / 2) / step) - first + 1 },
    (_, k) => (first + k) * step,
  );
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return svgPicture(FREEBOARD_FIGURE.width, FREEBOARD_FIGURE.height, 'Water along the vessel', [
    ...ticks.flatMap((tick) => [
      svgPath(`M${LEFT} ${place(y(tick))}H${RIGHT}`, { colour: SVG_RULE, width: 0.5 }),
      svgWords(LEFT - 5, y(tick) + 2.6, fixed(tick, decimals), { anchor: 'end' }),
    ]),
    svgPath(`M${LEFT} ${TOP}H${RIGHT}V${BOTTOM}H${LEFT}Z`),
    svgWords(LEFT + 6, TOP + 11, 'Height of the water over the baseline, m'),
    ...(['port', 'starboard'] as const).map((side) => fitted(points, side, x, y)),
    ...points.map(({ side, xM, waterM }) => mark(x(xM), y(waterM), side)),
    svgWords(LEFT, BOTTOM + 12, `aft, x ${fixed(aft, 1)} m`),
    svgWords(RIGHT, BOTTOM + 12, `forward, x ${fixed(fore, 1)} m`, { anchor: 'end' }),
    mark(LEFT + 150, BOTTOM + 24, 'port'),
    svgWords(LEFT + 158, BOTTOM + 26.6, 'port'),
    mark(LEFT + 200, BOTTOM + 24, 'starboard'),
    svgWords(LEFT + 208, BOTTOM + 26.6, 'starboard'),
  ]);
}

function fitted(
  points: readonly DrawnFreeboard[],
  wanted: 'port' | 'starboard',
  x: (xM: number) => number,
  y: (heightM: number) => number,
): string {
  const own = points
    .filter(({ side, leftOverM }) => side === wanted && leftOverM !== null)
    .toSorted((a, b) => a.xM - b.xM)
    .map(({ xM, waterM, leftOverM }) => `${place(x(xM))} ${place(y(waterM - (leftOverM ?? 0)))}`);
  if (own.length < 2) return '';
  return svgPath(`M${own.join('L')}`, wanted === 'port' ? { dash: '4 3' } : {});
}

function mark(x: number, y: number, side: 'port' | 'starboard'): string {
  const way = side === 'port' ? -1 : 1;
  return svgShape(
    `M${place(x + way * SIZE)} ${place(y)}L${place(x - way * SIZE)} ${place(y - SIZE)}V${place(y + SIZE)}Z`,
    side === 'starboard',
  );
}
