import type { DayReduction } from '#core/session/day-reduction.ts';
import type { SessionState } from '#core/session/session.ts';
import type { ReductionMessage } from '#core/wire/screen-message.ts';
import { faultOf } from './own-fault.ts';

/** What a reduction is made from; all else of the session leaves it as it is. */
const MADE_FROM = [
  'test',
  'states',
  'survey',
  'mountings',
  'certificates',
  'remounted',
] as const satisfies readonly (keyof SessionState)[];

/**
 * Keeps the whole reduction of the day up with the record, one at a time and away from the loop:
 * while one is being made, what comes meanwhile makes the next. `tell` is called when there is a new one.
 */
export class DayReductions {
  #madeFrom: SessionState | null = null;
  #underWay = false;
  #told: string | null = null;
  readonly #session: () => SessionState;
  readonly #reduce: (session: SessionState) => Promise<DayReduction>;

  constructor(
    session: () => SessionState,
    reduce: (session: SessionState) => Promise<DayReduction>,
  ) {
    this.#session = session;
    this.#reduce = reduce;
  }

  /** The newest as a message; null: none was made yet. */
  get told(): string | null {
    return this.#told;
  }

  /** Called as often as one likes: begins where something changed. */
  async keepUp(tell: () => void): Promise<void> {
    const session = this.#session();
    if (this.#underWay || session.test === null || !this.#differs(session)) return;
    this.#underWay = true;
    this.#madeFrom = session;
    const reduction = await this.#reduce(session).catch(
      (error: unknown): DayReduction => ({
        lines: session.lines,
        byHull: false,
        reduction: null,
        refused: faultOf(error, 'reduction').report,
      }),
    );
    this.#underWay = false;
    const message: ReductionMessage = { type: 'reduction', reduction };
    this.#told = JSON.stringify(message);
    tell();
  }

  #differs(session: SessionState): boolean {
    const made = this.#madeFrom;
    return made === null || MADE_FROM.some((key) => made[key] !== session[key]);
  }
}
