import type { LivePicture } from '#core/wire/screen-message.ts';

/** Seconds of trace that are kept and drawn. */
export const TRACE_S = 120;
/** More columns than ten a second of two minutes can never be wanted. */
const MOST_COLUMNS = 2400;

/** What one lane of the strip hangs: heel over receiver time, and the mean with its ± as it closed. */
export interface Trace {
  readonly atS: number[];
  readonly heelDeg: (number | null)[];
  readonly meanAtS: number[];
  readonly meanDeg: (number | null)[];
  readonly halfWidthDeg: (number | null)[];
}

/** The last two minutes of each instrument, kept as columns and cut at the old end. */
export class Traces {
  readonly byInstrument = new Map<string, Trace>();
  nowS = 0;

  append(live: LivePicture): void {
    // A clock that went back means another run of the receiver: nothing older belongs beside it.
    if (live.whole || live.receiverS < this.nowS) this.byInstrument.clear();
    this.nowS = live.receiverS;
    for (const instrument of live.instruments) {
      const trace = this.#of(instrument.instrument);
      instrument.trace.atS.forEach((atS, k) => {
        const last = trace.atS.at(-1);
        if (last !== undefined && atS <= last) return;
        trace.atS.push(atS);
        trace.heelDeg.push(instrument.trace.heelDeg[k] ?? null);
      });
      trace.meanAtS.push(live.receiverS);
      trace.meanDeg.push(instrument.estimate?.heelDeg ?? null);
      trace.halfWidthDeg.push(instrument.estimate?.halfWidth95Deg ?? null);
      cut([trace.atS, trace.heelDeg], live.receiverS - TRACE_S);
      cut([trace.meanAtS, trace.meanDeg, trace.halfWidthDeg], live.receiverS - TRACE_S);
    }
  }

  #of(instrument: string): Trace {
    let trace = this.byInstrument.get(instrument);
    if (trace === undefined) {
      trace = { atS: [], heelDeg: [], meanAtS: [], meanDeg: [], halfWidthDeg: [] };
      this.byInstrument.set(instrument, trace);
    }
    return trace;
  }
}

function cut(columns: [number[], ...(number | null)[][]], oldestS: number): void {
  const [atS] = columns;
  let drop = Math.max(0, atS.length - MOST_COLUMNS);
  while (drop < atS.length && (atS[drop] ?? 0) < oldestS) drop += 1;
  if (drop > 0) for (const column of columns) column.splice(0, drop);
}
