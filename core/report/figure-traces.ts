import { fixed } from './figure.ts';
import { roundStep } from './line-plot.ts';
import type { ReadingTrace } from './reported-day.ts';
import { place, SVG_PENCIL, SVG_RULE, svgPath, svgPicture, svgWords } from './svg.ts';

const LEFT = 96;
const RIGHT = 474;
const LANE = 44;
const FOOT = 22;
/** More points than the page can show are drawn as least and largest of each step. */
const STEPS = 760;

export function tracesSize(lanes: number): { width: number; height: number } {
  return { width: 480, height: lanes * LANE + FOOT };
}

/** The heel in the window of one reading: a lane an instrument, one scale for all, time across. */
export function figureTraces(
  traces: readonly (ReadingTrace & { readonly label: string })[],
): string {
  const { width, height } = tracesSize(traces.length);
  const fromS = Math.min(...traces.map(({ atS }) => atS[0] ?? Number.POSITIVE_INFINITY));
  const toS = Math.max(...traces.map(({ atS }) => atS.at(-1) ?? Number.NEGATIVE_INFINITY));
  const heels = traces.flatMap(({ heelDeg }) => heelDeg.filter((one) => one !== null));
  const least = least0(heels);
  const most = most0(heels);
  const reach = Math.max(most - least, 1e-3) * 1.1;
  const middle = (most + least) / 2;
  const x = (atS: number) => LEFT + ((RIGHT - LEFT) * (atS - fromS)) / Math.max(toS - fromS, 1e-3);
  const y = (lane: number, heelDeg: number) =>
    (lane + 0.5) * LANE - ((LANE - 6) * (heelDeg - middle)) / reach;
  const step = roundStep(toS - fromS || 1, 6);
  const ticks = Array.from(
    { length: Math.floor((toS - fromS) / step + 1e-9) + 1 },
    (_, k) => k * step,
  );
  return svgPicture(width, height, 'Heel in the window of one reading', [
    ...ticks.flatMap((tick) => [
      svgPath(`M${place(x(fromS + tick))} 0V${traces.length * LANE}`, {
        colour: SVG_RULE,
        width: 0.4,
      }),
      svgWords(x(fromS + tick), traces.length * LANE + 9, fixed(tick, 0), {
        size: 6.5,
        anchor: 'middle',
      }),
    ]),
    svgWords(RIGHT, height - 2, 's from the beginning of the window', { size: 6.5, anchor: 'end' }),
    ...traces.flatMap((trace, lane) => [
      svgPath(`M${LEFT} ${lane * LANE}H${RIGHT}V${(lane + 1) * LANE}H${LEFT}Z`, { width: 0.5 }),
      svgWords(0, lane * LANE + 12, trace.label),
      svgWords(LEFT - 4, lane * LANE + 9, fixed(middle + reach / 2, 3), {
        size: 6.5,
        anchor: 'end',
        colour: SVG_PENCIL,
      }),
      svgWords(LEFT - 4, (lane + 1) * LANE - 3, fixed(middle - reach / 2, 3), {
        size: 6.5,
        anchor: 'end',
        colour: SVG_PENCIL,
      }),
      svgPath(
        drawn(trace, x, (heelDeg) => y(lane, heelDeg)),
        { width: 0.45 },
      ),
    ]),
  ]);
}

const least0 = (values: readonly number[]) =>
  values.reduce((a, b) => Math.min(a, b), values[0] ?? 0);
const most0 = (values: readonly number[]) =>
  values.reduce((a, b) => Math.max(a, b), values[0] ?? 0);

/** A missing sample leaves a gap. Of many samples in one step of the page, the least and the largest. */
function drawn(
  { atS, heelDeg }: ReadingTrace,
  x: (atS: number) => number,
  y: (heelDeg: number) => number,
): string {
  const each = Math.max(1, Math.ceil(atS.length / STEPS));
  let d = '';
  let pen: 'M' | 'L' = 'M';
  for (let k = 0; k < atS.length; k += each) {
    const part = heelDeg.slice(k, k + each);
    const present = part.filter((one) => one !== null);
    if (present.length === 0) {
      pen = 'M';
      continue;
    }
    const ends = each === 1 ? present : [Math.min(...present), Math.max(...present)];
    for (const heel of ends) {
      d += `${pen}${place(x(atS[k] ?? 0))} ${place(y(heel))}`;
      pen = 'L';
    }
  }
  return d === '' ? 'M0 0' : d;
}
