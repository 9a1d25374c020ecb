import type { SessionState } from '#core/session/session.ts';
import type { Act } from '#core/wire/screen-message.ts';
import { pause, until } from './programs.ts';
import type { ScreenClient } from './screen-client.ts';

export const ACT_WITHIN_MS = 100_000;
/** While a reading is awaited the day goes slower, and slower still where the judge is behind. */
const READING_PACE = 30;
const LEAST_PACE = 4;
const SLOWER_AFTER_MS = 10_000;
const MOST_SHIFTS = 8;

interface Plan {
  readonly lastsS: number;
  readonly pace: number;
  readonly shifts: number;
}

/** Conducts the long day at one of its screens: readings, shifts, a voided reading, a remark. */
export class SoakArchitect {
  readonly screen: ScreenClient;
  /** Virtual seconds to one of the wall the day may go at now. */
  pace: number;
  readings = 0;
  readonly #plan: Plan;
  readonly #nowS: () => number;

  constructor(screen: ScreenClient, plan: Plan, nowS: () => number) {
    this.screen = screen;
    this.pace = plan.pace;
    this.#plan = plan;
    this.#nowS = nowS;
  }

  /** The zero, then a shift now and then, each read as soon as it is offered. */
  async conduct(): Promise<void> {
    const { lastsS, shifts } = this.#plan;
    await this.#read();
    await this.#act({ kind: 'remark', text: 'ten on the quay', line: null });
    for (let shift = 1; shift <= shifts; shift += 1) {
      const dueS = (shift * lastsS) / (shifts + 1);
      await until(`shift ${shift} is due`, () => this.#nowS() >= dueS, 3_600_000);
      await this.#shift(shift);
      const line = await this.#read();
      if (shift !== 2) continue;
      await this.#act({ kind: 'void-reading', line, reason: 'a launch came by' });
      await this.#read();
    }
  }

  /** One more shift of the plan, where there is one. */
  async lastShift(): Promise<void> {
    if (this.#plan.shifts >= MOST_SHIFTS) return;
    await this.#shift(this.#plan.shifts + 1);
    await this.#read();
  }

  /** Resolves with the state as the screen then has it. */
  async closeTest(): Promise<SessionState> {
    await this.#act({ kind: 'close-test', reason: 'the soak is over' });
    await until('the state is closed', () => this.screen.state?.closed != null);
    return this.screen.state!;
  }

  async #shift(state: number): Promise<void> {
    await this.#act({ kind: 'begin-shift' });
    const settled = () => {
      const simulation = this.screen.live?.simulation;
      return simulation?.settledState === state && simulation.carrying.length === 0;
    };
    await until(`state ${state} has settled`, settled, ACT_WITHIN_MS);
    await this.#act({ kind: 'weight-landed' });
  }

  /** Resolves with the reading's line. */
  async #read(): Promise<number> {
    this.pace = Math.min(this.#plan.pace, READING_PACE);
    const endMs = performance.now() + ACT_WITHIN_MS;
    let slowerMs = performance.now() + SLOWER_AFTER_MS;
    for (;;) {
      const refused = await this.#readNow();
      if (refused === null) break;
      if (refused !== 'act-not-steady' || performance.now() > endMs)
        throw new Error(
          `${refused} at ${this.#nowS()} s: ${this.screen.refusedFor}; shown ${JSON.stringify(this.screen.live?.joined)}`,
        );
      if (performance.now() > slowerMs) {
        this.pace = Math.max(LEAST_PACE, this.pace / 2);
        slowerMs = performance.now() + SLOWER_AFTER_MS;
      }
      await pause(100);
    }
    this.pace = this.#plan.pace;
    this.readings += 1;
    const line = () => this.screen.state?.states.at(-1)?.readingWritten?.line;
    await until('the reading is shown', () => line() !== undefined);
    return line()!;
  }

  /** What is shown may be older than the state, at a pace: then it is refused and asked again. */
  #readNow(): Promise<string | null> {
    return this.screen.live?.joined.readable === true
      ? this.screen.act({ kind: 'take-reading' })
      : Promise.resolve('act-not-steady');
  }

  async #act(act: Act): Promise<void> {
    const refused = await this.screen.act(act);
    if (refused !== null) throw new Error(`${act.kind}: ${refused}`);
  }
}
