import type { SmoothedHeel } from './live-streams.ts';

/** What a screen is sent of a trace when it comes anew. */
export const WHOLE_TRACE_S = 120;
/** Ten samples a second of two minutes, and some for a pace that bunches them. */
const MOST_SAMPLES = 1600;

export interface Trace {
  readonly atS: readonly number[];
  readonly heelDeg: readonly (number | null)[];
}

interface Lane {
  atS: number[];
  heelDeg: (number | null)[];
  /** Samples counted ever: what was sent up to is told by it. */
  count: number;
  temperatureC: number | null;
}

/** The last two minutes of each instrument's smoothed heel, and what is new since it was last sent. */
export class Traces {
  readonly #lanes = new Map<string, Lane>();
  readonly #sent = new Map<string, number>();

  add(heel: Omit<SmoothedHeel, 'shaking'>): void {
    let lane = this.#lanes.get(heel.instrument);
    if (lane === undefined) {
      lane = { atS: [], heelDeg: [], count: 0, temperatureC: null };
      this.#lanes.set(heel.instrument, lane);
    }
    lane.atS.push(...heel.atS);
    lane.heelDeg.push(...heel.heelDeg);
    lane.count += heel.atS.length;
    lane.temperatureC = heel.temperatureC ?? lane.temperatureC;
    const oldestS = (lane.atS.at(-1) ?? 0) - WHOLE_TRACE_S;
    let drop = Math.max(0, lane.atS.length - MOST_SAMPLES);
    while ((lane.atS[drop] ?? oldestS) < oldestS) drop += 1;
    lane.atS.splice(0, drop);
    lane.heelDeg.splice(0, drop);
  }

  temperatureC(instrument: string): number | null {
    return this.#lanes.get(instrument)?.temperatureC ?? null;
  }

  whole(instrument: string): Trace {
    const lane = this.#lanes.get(instrument);
    return lane === undefined ? { atS: [], heelDeg: [] } : { atS: lane.atS, heelDeg: lane.heelDeg };
  }

  /** What came since `markSent`. */
  news(instrument: string): Trace {
    const lane = this.#lanes.get(instrument);
    if (lane === undefined) return { atS: [], heelDeg: [] };
    const fresh = Math.min(lane.atS.length, lane.count - (this.#sent.get(instrument) ?? 0));
    const from = lane.atS.length - fresh;
    return { atS: lane.atS.slice(from), heelDeg: lane.heelDeg.slice(from) };
  }

  markSent(): void {
    for (const [instrument, lane] of this.#lanes) this.#sent.set(instrument, lane.count);
  }
}
