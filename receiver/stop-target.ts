import type { SessionState } from '#core/session/session.ts';
import { stopTarget } from '#core/session/stop-target.ts';
import type { RecordFile } from './record-file.ts';

/** A target that differs by less than this part is not told again. */
const SAME_TARGET = 0.02;

/** While a reading is awaited: the accuracy it stops at, as a line, so that a replay stops at the same. */
export function appendStopTarget(record: Pick<RecordFile, 'append'>, session: SessionState): void {
  if (session.awaits !== 'reading') return;
  const target = stopTarget(session);
  if (target === null) return;
  const told = session.stopTarget?.standardErrorDeg;
  if (told !== undefined && Math.abs(target.standardErrorDeg / told - 1) < SAME_TARGET) return;
  record.append('stop-target', target, { author: 'receiver', role: 'receiver' });
}
