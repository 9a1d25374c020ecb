import uPlot from 'uplot';
import { TRACE_S, type Trace } from '../link/traces.ts';
import { type Colours, coloursOf } from './colours.ts';
import { type NotUsed, silences, splitTrace } from './strip.ts';

/** What one lane draws now. */
export interface LanePicture {
  readonly trace: Trace;
  readonly nowS: number;
  readonly loDeg: number;
  readonly hiDeg: number;
  readonly bands: readonly NotUsed[];
  readonly steady: boolean;
}

const NOTHING: Trace = { atS: [], heelDeg: [], meanAtS: [], meanDeg: [], halfWidthDeg: [] };

/** One hanging strip: heel across with port left, time down, newest at the bob. Drawn by uPlot. */
export class Lane {
  readonly #plot: uPlot;
  #picture: LanePicture = {
    trace: NOTHING,
    nowS: 0,
    loDeg: -1,
    hiDeg: 1,
    bands: [],
    steady: false,
  };
  #colours: Colours;

  constructor(
    private readonly element: HTMLElement,
    width: number,
    height: number,
  ) {
    this.#colours = coloursOf(element);
    this.#plot = new uPlot(this.#options(width, height), [[], [], []], element);
  }

  resize(width: number, height: number): void {
    this.#plot.setSize({ width, height });
  }

  draw(picture: LanePicture): void {
    this.#picture = picture;
    this.#colours = coloursOf(this.element);
    const { used, rejected } = splitTrace(picture.trace, picture.bands);
    this.#plot.setData([picture.trace.atS, used, rejected], true);
  }

  destroy(): void {
    this.#plot.destroy();
  }

  #options(width: number, height: number): uPlot.Options {
    const line = (stroke: () => string, lineWidth: number, dash: number[]): uPlot.Series => ({
      stroke,
      width: lineWidth,
      dash,
      spanGaps: false,
      points: { show: false },
    });
    return {
      width,
      height,
      padding: [0, 0, 0, 0],
      legend: { show: false },
      cursor: { show: false },
      scales: {
        x: {
          time: false,
          ori: 1,
          dir: -1,
          range: () => [this.#picture.nowS - TRACE_S, this.#picture.nowS + BOB_ROOM_S],
        },
        y: { ori: 0, dir: 1, range: () => [this.#picture.loDeg, this.#picture.hiDeg] },
      },
      axes: [{ show: false }, { show: false }],
      series: [
        {},
        line(() => this.#colours.ink, 1.3, []),
        line(() => this.#colours.notice, 1, [3, 2]),
      ],
      hooks: {
        drawClear: [(plot) => this.#drawUnder(plot)],
        draw: [(plot) => this.#drawOver(plot)],
      },
    };
  }

  #drawUnder(plot: uPlot): void {
    const { ctx, bbox } = plot;
    const { bands, loDeg, hiDeg, nowS, trace } = this.#picture;
    const atY = (atS: number) => plot.valToPos(Math.max(atS, nowS - TRACE_S), 'x', true);
    ctx.save();
    ctx.setLineDash([]);
    ctx.fillStyle = this.#colours.sheet;
    ctx.fillRect(bbox.left, bbox.top, bbox.width, bbox.height);
    ctx.strokeStyle = this.#colours.rule;
    ctx.lineWidth = 1;
    for (let part = 1; part < 4; part += 1) {
      const x = plot.valToPos(loDeg + ((hiDeg - loDeg) * part) / 4, 'y', true);
      rule(ctx, x, bbox.top, x, bbox.top + bbox.height);
      const y = atY(nowS - (TRACE_S * part) / 4);
      rule(ctx, bbox.left, y, bbox.left + bbox.width, y);
    }
    for (const band of bands) {
      if (band.toS < nowS - TRACE_S) continue;
      hatch(ctx, bbox, atY(band.fromS), atY(Math.min(band.toS, nowS)), this.#colours);
    }
    ctx.strokeStyle = this.#colours.line;
    ctx.lineWidth = 2;
    for (const gap of silences(trace, nowS)) {
      if (gap.toS < nowS - TRACE_S) continue;
      const middle = bbox.left + bbox.width / 2;
      for (const y of [atY(gap.fromS), atY(gap.toS)]) {
        rule(ctx, middle - bbox.width / 5, y, middle + bbox.width / 5, y);
      }
    }
    ctx.restore();
  }

  #drawOver(plot: uPlot): void {
    const { ctx, bbox } = plot;
    const { trace, nowS, steady } = this.#picture;
    const ratio = uPlot.pxRatio;
    ctx.save();
    // The series drawn last leaves its dashes behind.
    ctx.setLineDash([]);
    ctx.beginPath();
    ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
    ctx.clip();
    this.#drawWedge(plot);
    const last = lastValue(trace);
    if (last !== null) {
      const x = plot.valToPos(last, 'y', true);
      const y = plot.valToPos(nowS, 'x', true);
      ctx.beginPath();
      ctx.moveTo(x, y - 2 * ratio);
      ctx.lineTo(x + 6 * ratio, y + 7 * ratio);
      ctx.lineTo(x, y + 17 * ratio);
      ctx.lineTo(x - 6 * ratio, y + 7 * ratio);
      ctx.closePath();
      ctx.fillStyle = steady ? this.#colours.act : this.#colours.sheet;
      ctx.fill();
      ctx.strokeStyle = steady ? this.#colours.act : this.#colours.ink;
      ctx.lineWidth = 1.8 * ratio;
      ctx.stroke();
    }
    ctx.restore();
  }

  /** The ± of the mean, closing downwards as seconds are counted. */
  #drawWedge(plot: uPlot): void {
    const { trace } = this.#picture;
    const { ctx } = plot;
    const edges: [number, number, number][] = [];
    for (let k = trace.meanAtS.length - 1; k >= 0; k -= 1) {
      const mean = trace.meanDeg[k] ?? null;
      const half = trace.halfWidthDeg[k] ?? null;
      if (mean === null || half === null) break;
      edges.push([
        plot.valToPos(trace.meanAtS[k]!, 'x', true),
        plot.valToPos(mean - half, 'y', true),
        plot.valToPos(mean + half, 'y', true),
      ]);
    }
    if (edges.length < 2) return;
    ctx.beginPath();
    for (const [y, port] of edges) ctx.lineTo(port, y);
    for (const [y, , starboard] of edges.toReversed()) ctx.lineTo(starboard, y);
    ctx.closePath();
    ctx.globalAlpha = 0.22;
    ctx.fillStyle = this.#colours.act;
    ctx.fill();
    ctx.globalAlpha = 1;
    ctx.strokeStyle = this.#colours.act;
    ctx.lineWidth = 1.2 * uPlot.pxRatio;
    ctx.stroke();
  }
}

/** Seconds of lane below now, so that the bob has room to hang. */
const BOB_ROOM_S = 6;

function lastValue(trace: Trace): number | null {
  return trace.heelDeg.findLast((heelDeg) => heelDeg !== null) ?? null;
}

function rule(ctx: CanvasRenderingContext2D, x0: number, y0: number, x1: number, y1: number): void {
  ctx.beginPath();
  ctx.moveTo(Math.round(x0) + 0.5, Math.round(y0) + 0.5);
  ctx.lineTo(Math.round(x1) + 0.5, Math.round(y1) + 0.5);
  ctx.stroke();
}

function hatch(
  ctx: CanvasRenderingContext2D,
  box: uPlot.BBox,
  top: number,
  foot: number,
  colours: Colours,
): void {
  const height = Math.max(2, foot - top);
  ctx.save();
  ctx.beginPath();
  ctx.rect(box.left, top, box.width, height);
  ctx.clip();
  ctx.fillStyle = colours.noticeWash;
  ctx.fillRect(box.left, top, box.width, height);
  ctx.strokeStyle = colours.notice;
  ctx.globalAlpha = 0.35;
  ctx.lineWidth = uPlot.pxRatio;
  const step = 9 * uPlot.pxRatio;
  for (let x = box.left - height; x < box.left + box.width; x += step) {
    ctx.beginPath();
    ctx.moveTo(x, top + height);
    ctx.lineTo(x + height, top);
    ctx.stroke();
  }
  ctx.globalAlpha = 1;
  ctx.strokeRect(box.left, top, box.width, height);
  ctx.restore();
}
