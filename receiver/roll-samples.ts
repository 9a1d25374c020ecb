import type { RollInstrument } from '#core/reduction/roll-look.ts';
import type { SessionState } from '#core/session/session.ts';

/** Receiver seconds a roll test is looked for in: some five releases. */
const KEPT_S = 1200;

export interface RollSampleGroup {
  readonly instrument: string;
  readonly atS: readonly number[];
  readonly heelDeg: readonly (number | null)[];
}

/** Instruments quick enough for a roll: a water tube follows it too late. */
export function quickOnes({ mountings }: Pick<SessionState, 'mountings'>): string[] {
  return mountings.filter((one) => one.kind === 'inclinometer').map((one) => one.instrument);
}

/**
 * The smoothed samples of the last twenty minutes, instrument by instrument, for the roll test;
 * what comes late or twice is left out. Constant memory.
 */
export class RollSamples {
  readonly #kept = new Map<string, { timeS: number[]; heelDeg: number[] }>();

  add({ instrument, atS, heelDeg }: RollSampleGroup): void {
    const kept = this.#kept.get(instrument) ?? { timeS: [], heelDeg: [] };
    this.#kept.set(instrument, kept);
    atS.forEach((timeS, k) => {
      const heel = heelDeg[k] ?? null;
      if (heel === null || timeS <= (kept.timeS.at(-1) ?? Number.NEGATIVE_INFINITY)) return;
      kept.timeS.push(timeS);
      kept.heelDeg.push(heel);
    });
    const fromS = (kept.timeS.at(-1) ?? 0) - KEPT_S;
    // in slices: taking off one by one would move the whole each time
    if ((kept.timeS[0] ?? 0) > fromS - KEPT_S / 10) return;
    const old = kept.timeS.findIndex((timeS) => timeS >= fromS);
    kept.timeS.splice(0, old);
    kept.heelDeg.splice(0, old);
  }

  /** As they stand now, of these instruments. */
  of(instruments: readonly string[]): RollInstrument[] {
    return instruments.flatMap((instrument) => {
      const kept = this.#kept.get(instrument);
      return kept === undefined ? [] : [{ instrument, ...kept }];
    });
  }
}
