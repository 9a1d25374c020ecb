import { Fault } from '#core/fault/fault.ts';
import type { StopTarget } from '#core/record/line.ts';
import type { SessionState } from '#core/session/session.ts';
import { stopTarget } from '#core/session/stop-target.ts';
import type { RecordFile } from './record-file.ts';

/** A target that differs by less than this part is not told again. */
const SAME_TARGET = 0.02;

/** While a reading is awaited: the accuracy it stops at, as a line, so that a replay stops at the same. */
export class StopTargets {
  readonly #record: Pick<RecordFile, 'append'>;
  readonly #session: () => SessionState;
  #looked: readonly unknown[] = [];

  constructor(record: Pick<RecordFile, 'append'>, session: () => SessionState) {
    this.#record = record;
    this.#session = session;
  }

  /** Looks only when something it hangs on has changed; what a full disk does not take is tried again. */
  write(): void {
    const session = this.#session();
    const { test, states, mountings, certificates, remounted, awaits } = session;
    const now = [test, states, mountings, certificates, remounted, awaits];
    if (now.every((one, k) => one === this.#looked[k])) return;
    if (awaits === 'reading' && !this.#told(session)) return;
    this.#looked = now;
  }

  #told(session: SessionState): boolean {
    const target = targetOf(session);
    if (target === null || isTold(session.stopTarget, target)) return true;
    try {
      this.#record.append('stop-target', target, { author: 'receiver', role: 'receiver' });
      return true;
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      return false;
    }
  }
}

function isTold(told: StopTarget | null, target: StopTarget): boolean {
  if (told === null || told.missingDeg !== target.missingDeg) return false;
  return Math.abs(target.standardErrorDeg / told.standardErrorDeg - 1) < SAME_TARGET;
}

/** A plan that contradicts itself gives no target; it is refused where it is to be carried out. */
function targetOf(session: SessionState): StopTarget | null {
  try {
    return stopTarget(session);
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return null;
  }
}
