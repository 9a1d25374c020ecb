import { Fault } from '#core/fault/fault.ts';
import { replacementRefusal } from '#core/session/fold-certificate.ts';
import { checkCorrection } from '#core/session/fold-corrections.ts';
import { overrulingRefusal } from '#core/session/fold-overruled.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Act } from '#core/wire/screen-message.ts';
import type { RecordFile, WhoWrites } from './record-file.ts';

export type ChangeAct = Extract<
  Act,
  { kind: 'correct' | 'overrule' | 'replace-certificate' | 'void-reading' }
>;

/**
 * The line of an act that changes what stands in the record, of an open test or a closed one.
 * Throws `correction-unfit`, `overruling-unfit`, `certificate-unfit`, or `act-not-now` for a voiding
 * of what is no reading in force; and then nothing is written.
 */
export function appendChange(
  record: Pick<RecordFile, 'append'>,
  session: SessionState,
  act: ChangeAct,
  who: WhoWrites,
): void {
  switch (act.kind) {
    case 'correct':
      checkCorrection(session, act.correction);
      record.append('correction', act.correction, who);
      return;
    case 'overrule': {
      const refusal = overrulingRefusal(session, act.line);
      if (refusal !== null) throw refusal;
      record.append('overruled', { line: act.line, reason: act.reason }, who);
      return;
    }
    case 'void-reading': {
      if (!session.states.some((state) => state.readingWritten?.line === act.line))
        throw new Fault('act-not-now', act.kind, `line ${act.line} is no reading in force`);
      record.append('reading-voided', { line: act.line, reason: act.reason }, who);
      return;
    }
    case 'replace-certificate': {
      const refusal = replacementRefusal(session, act.certificate);
      if (refusal !== null) throw refusal;
      const { certificate, reason } = act;
      record.append('certificate-replaced', { certificate, reason }, who);
    }
  }
}
