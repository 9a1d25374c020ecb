import { Fault } from '#core/fault/fault.ts';
import type { RollRunLine } from '#core/record/roll-line.ts';
import type { RollFound } from '#core/reduction/roll-look.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Act } from '#core/wire/screen-message.ts';
import type { RecordFile, WhoWrites } from './record-file.ts';
import type { RollTask } from './roll-link.ts';

type RollAct = Extract<Act, { kind: 'look-for-roll' | 'refuse-roll-run' | 'tell-roll-condition' }>;

export interface RollConductParts {
  readonly record: Pick<RecordFile, 'append' | 'clock'>;
  readonly session: () => SessionState;
  /** Lines there were when this run of the receiver began to watch, and now. */
  readonly taken: () => { readonly startedLines: number; readonly afterLines: number };
  readonly look: (task: Pick<RollTask, 'mark' | 'afterS'>) => Promise<RollFound[]>;
}

/** Refused rolling smaller than this share of the day's largest run is her moving about, and no line. Ours. */
const WORTH_A_LINE = 0.25;
/** A run is over when this many periods have gone by since its last extreme. */
const PERIODS_AFTER = 1.5;

/** The acts of a roll test: runs are found or marked, and become lines; a person may leave one out. */
export class RollConduct {
  readonly #parts: RollConductParts;
  #looking = false;

  constructor(parts: RollConductParts) {
    this.#parts = parts;
  }

  /** Resolves when its lines are appended. Throws the fault it is refused with. */
  async act(act: RollAct, who: WhoWrites): Promise<void> {
    const { test, closed, awaits } = this.#parts.session();
    if (test === null || closed !== null)
      throw new Fault('act-not-now', act.kind, 'no test is open');
    if (act.kind === 'refuse-roll-run') return this.#refuse(act, who);
    if (act.kind === 'tell-roll-condition') return this.#tell(act, test.particulars.beamM, who);
    if (awaits === 'landing') throw new Fault('act-not-now', act.kind, 'weights are under way');
    if (this.#looking) throw new Fault('act-not-now', act.kind, 'one is being looked for');
    this.#looking = true;
    try {
      const afterS = this.#recordedUntilS();
      const taken = {
        ...this.#parts.taken(),
        marked: act.marked,
        afterS: Number.isFinite(afterS) ? afterS : null,
      };
      const found = await this.#parts.look({ mark: act.marked, afterS });
      this.#write(act, found, taken, who);
    } finally {
      this.#looking = false;
    }
  }

  #write(
    act: Extract<RollAct, { kind: 'look-for-roll' }>,
    found: RollFound[],
    taken: NonNullable<RollRunLine['taken']>,
    who: WhoWrites,
  ) {
    const { record, session } = this.#parts;
    const overlapping = session().rollRuns.find(
      ({ rolled, refused }) =>
        refused === null &&
        found.some(({ run }) => run.fromS < rolled.run.toS && run.toS > rolled.run.fromS),
    );
    if (overlapping !== undefined) {
      const where = `line ${overlapping.written.line}`;
      throw new Fault('input-contradiction', act.kind, `part of this is recorded as ${where}`);
    }
    const over = act.marked === null ? found.filter((one) => this.#isOver(one)) : found;
    const largest = Math.max(
      ...[...over, ...session().rollRuns.map(({ rolled }) => rolled)].map(
        ({ run }) => run.amplitudeFromDeg,
      ),
    );
    const worth = over.filter(
      ({ run, by }) =>
        by === 'marked' || run.refused === null || run.amplitudeFromDeg > WORTH_A_LINE * largest,
    );
    if (worth.length === 0) {
      const still = found.length > over.length;
      throw new Fault('roll-not-found', act.kind, still ? 'she is still rolling' : 'none since');
    }
    for (const one of worth) record.append('roll-run', { ...one, taken }, who);
  }

  /** Later samples show that she rolls no more, or otherwise. */
  #isOver({ run }: RollFound): boolean {
    return this.#parts.record.clock.monotonicS() - run.toS > PERIODS_AFTER * run.periodS.value;
  }

  /** What would make no plot is refused before it is written. */
  #tell(act: Extract<RollAct, { kind: 'tell-roll-condition' }>, beamM: number, who: WhoWrites) {
    const other = act.told.earlier.find((test) => test.beamM !== beamM);
    if (other !== undefined) {
      const found = `${other.beamM} m on ${other.date}, ${beamM} m today`;
      throw new Fault('input-contradiction', 'beamM', found);
    }
    this.#parts.record.append('roll-condition', act.told, who);
  }

  #refuse(act: Extract<RollAct, { kind: 'refuse-roll-run' }>, who: WhoWrites): void {
    const inForce = this.#parts
      .session()
      .rollRuns.some((run) => run.written.line === act.line && run.refused === null);
    if (!inForce) throw new Fault('act-not-now', act.kind, `line ${act.line} is no run in force`);
    this.#parts.record.append('roll-run-refused', { line: act.line, reason: act.reason }, who);
  }

  #recordedUntilS(): number {
    return Math.max(
      Number.NEGATIVE_INFINITY,
      ...this.#parts.session().rollRuns.map(({ rolled }) => rolled.run.toS),
    );
  }
}
