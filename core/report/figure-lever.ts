import type { ConditionAnswer } from '../stability/stability-output.ts';
import { fixed } from './figure.ts';
import { roundStep } from './line-plot.ts';
import { place, SVG_RULE, svgPath, svgPicture, svgWords } from './svg.ts';

export const LEVER_FIGURE = { width: 480, height: 190 } as const;
const LEFT = 46;
const RIGHT = 470;
const TOP = 10;
const BOTTOM = 156;

/** Righting levers of a condition to both sides with the liquids moved, and where an opening goes under. */
export function figureLever({ sides }: Pick<ConditionAnswer, 'sides'>): string {
  const levers = sides.flatMap(({ points }) => points.map(({ exactM }) => exactM));
  const heels = sides.flatMap(({ points }) => points.map(({ heelDeg }) => heelDeg));
  const farDeg = Math.max(...heels, 1);
  const top = Math.max(...levers, 0.01);
  const bottom = Math.min(...levers, 0);
  const x = (heelDeg: number) => LEFT + ((RIGHT - LEFT) * heelDeg) / farDeg;
  const y = (leverM: number) => BOTTOM - ((BOTTOM - TOP) * (leverM - bottom)) / (top - bottom);
  const step = roundStep(top - bottom, 4);
  const first = Math.ceil(bottom / step);
  const ticks = Array.from(
    { length: Math.floor(top / step) - first + 1 },
    (_, k) => (first + k) * step,
  );
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const stepDeg = roundStep(farDeg, 8);
  const heelTicks = Array.from({ length: Math.floor(farDeg / stepDeg) + 1 }, (_, k) => k * stepDeg);
  return svgPicture(LEVER_FIGURE.width, LEVER_FIGURE.height, 'Righting levers', [
    ...ticks.flatMap((tick) => [
      svgPath(`M${LEFT} ${place(y(tick))}H${RIGHT}`, {
        colour: SVG_RULE,
        width: tick === 0 ? 1.1 : 0.5,
      }),
      svgWords(LEFT - 5, y(tick) + 2.6, fixed(tick, decimals), { anchor: 'end' }),
    ]),
    ...heelTicks.flatMap((tick) => [
      svgPath(`M${place(x(tick))} ${TOP}V${BOTTOM}`, { colour: SVG_RULE, width: 0.5 }),
      svgWords(x(tick), BOTTOM + 10, fixed(tick, 0), { anchor: 'middle' }),
    ]),
    ...sides.map((one) => curve(one, x, y)),
    ...sides.map((one) => flooding(one, x)),
    svgWords(LEFT + 6, TOP + 11, 'Righting lever, m'),
    svgWords(RIGHT, BOTTOM + 22, 'heel, degrees', { anchor: 'end' }),
    svgPath(`M${LEFT} ${BOTTOM + 20}h18`, { width: 1.3 }),
    svgWords(LEFT + 22, BOTTOM + 22.6, 'to starboard'),
    svgPath(`M${LEFT + 90} ${BOTTOM + 20}h18`, { width: 1.3, dash: '5 3' }),
    svgWords(LEFT + 112, BOTTOM + 22.6, 'to port'),
    svgPath(`M${LEFT + 160} ${BOTTOM + 20}h18`, { width: 0.9, dash: '7 2 1 2' }),
    svgWords(LEFT + 182, BOTTOM + 22.6, 'first opening under water'),
  ]);
}

type SideAnswer = ConditionAnswer['sides'][number];

function curve(
  { side, points }: SideAnswer,
  x: (heelDeg: number) => number,
  y: (leverM: number) => number,
): string {
  const d = points.map(({ heelDeg, exactM }) => `${place(x(heelDeg))} ${place(y(exactM))}`);
  if (d.length === 0) return '';
  return svgPath(`M${d.join('L')}`, { width: 1.3, ...(side === 'port' ? { dash: '5 3' } : {}) });
}

/** What is kept shut floods nothing. */
function flooding({ openings }: SideAnswer, x: (heelDeg: number) => number): string {
  const first = openings
    .filter(({ openFrom }) => openFrom !== null)
    .flatMap(({ immersedDeg }) => (immersedDeg === null ? [] : [immersedDeg]));
  if (first.length === 0) return '';
  return svgPath(`M${place(x(Math.min(...first)))} ${TOP}V${BOTTOM}`, {
    width: 0.9,
    dash: '7 2 1 2',
  });
}
