import { Fault, type FaultCode } from '#core/fault/fault.ts';
import { heelDegOfDifference, valueOfCount } from '#core/part/counted.ts';
import { SeenStep } from '#core/part/seen-step.ts';
import type { Channel } from '#core/sample/stream-item.ts';
import type { Count } from './drivers/driver.ts';

/** One fault of a kind is told again at most this often; every sample it touches is flagged anyway. */
const TELL_AGAIN_AFTER_S = 60;
/** One that can show so little moves in its last place always (our setting). */
const RESTLESS_STEP_DEG = 0.002;
const USUAL_STUCK_AFTER_S = 10;
/** Coarser steps than this are worth a word; the limit of the flag beside a reading is the same (ours). */
const COARSE_STEP_DEG = 0.01;
const MEASURED = ['heel', 'port', 'starboard'];

/** Tells of faults of one line, each kind at most once a minute. */
export class FaultTeller {
  readonly #tell: (fault: Fault) => void;
  readonly #toldAtS = new Map<string, number>();

  constructor(tell: (fault: Fault) => void) {
    this.#tell = tell;
  }

  tell(fault: Fault, nowS: number): void {
    const key = `${fault.code} ${fault.report.where}`;
    const told = this.#toldAtS.get(key);
    if (told !== undefined && nowS - told < TELL_AGAIN_AFTER_S) return;
    if (this.#toldAtS.size > 200) this.#toldAtS.clear();
    this.#toldAtS.set(key, nowS);
    this.#tell(fault);
  }
}

/**
 * Watches the counts of one instrument on a serial line: one value for too long is stuck, and
 * values that only move in steps coarser than stated are said to. Counts pass through unchanged.
 */
export class SerialWatch {
  readonly #where: string;
  readonly #channels: readonly Channel[];
  readonly #measured: readonly number[];
  readonly #stuckAfterS: number | null;
  readonly #spanM: number | null;
  readonly #seen = new Map<number, SeenStep>();
  #last = '';
  #sinceS = 0;

  /** @param channels the instrument's own, in order */
  constructor(
    channels: readonly Channel[],
    options: { where: string; spanM: number | null; stuckAfterS: number | undefined },
  ) {
    this.#where = options.where;
    this.#channels = channels;
    this.#spanM = options.spanM;
    this.#measured = [...channels.keys()].filter((k) => MEASURED.includes(channels[k]!.quantity));
    this.#stuckAfterS = options.stuckAfterS ?? (this.#isRestless() ? USUAL_STUCK_AFTER_S : null);
    for (const index of this.#measured) this.#seen.set(index, new SeenStep());
  }

  /** The counts with what is wrong with them, and what is to be told of them. */
  look(counts: readonly Count[], atS: number): { counts: readonly Count[]; faults: Fault[] } {
    const measured = this.#measured.map((k) => counts[k]!);
    const codes = new Set(counts.flatMap(({ fault }) => fault ?? []));
    const faults = [...codes]
      .filter(isOfValues)
      .map((code) => new Fault(code, this.#where, 'a sample'));
    if (measured.some(({ count }) => count === null)) return { counts, faults };
    const now = measured.map(({ count }) => count).join();
    if (now !== this.#last) {
      this.#last = now;
      this.#sinceS = atS;
    }
    const forS = atS - this.#sinceS;
    if (this.#stuckAfterS === null || forS < this.#stuckAfterS) return { counts, faults };
    faults.push(new Fault('chip-stuck', this.#where, `one value for ${forS.toFixed(0)} s`));
    const stuck: FaultCode = 'chip-stuck';
    return { counts: counts.map(({ count, fault }) => ({ count, fault: fault ?? stuck })), faults };
  }

  /**
   * The step its values are seen to move in, when it is coarse and at least twice what the stream
   * says; null otherwise.
   */
  coarserStep(counts: readonly Count[]): { quantity: string; step: number } | null {
    for (const index of this.#measured) {
      const { count, fault } = counts[index]!;
      const { quantity, counted } = this.#channels[index]!;
      if (count === null || fault !== null || counted === undefined) continue;
      const step = this.#seen.get(index)?.see(valueOfCount(count, counted)) ?? null;
      if (step === null || (counted.step !== null && step < 2 * counted.step)) continue;
      const stepDeg = heelDegOfDifference(step, counted.unit, this.#spanM);
      if (stepDeg !== null && stepDeg > COARSE_STEP_DEG) return { quantity, step };
    }
    return null;
  }

  #isRestless(): boolean {
    return this.#measured.some((index) => {
      const { counted } = this.#channels[index]!;
      if (counted?.step == null) return false;
      const stepDeg = heelDegOfDifference(counted.step, counted.unit, this.#spanM);
      return stepDeg !== null && stepDeg <= RESTLESS_STEP_DEG;
    });
  }
}

/** Faults of the traffic are told where they are found, with what was found. */
function isOfValues(code: FaultCode): boolean {
  return code.startsWith('nmea-') || code === 'chip-saturated' || code === 'modbus-not-a-number';
}
