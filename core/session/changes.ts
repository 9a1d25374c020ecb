import type { CorrectableBody } from '../record/correctable.ts';
import type { Correction, FieldValue } from '../record/correction.ts';
import { fieldWords } from '../record/field-words.ts';
import type { SessionState, Written } from './session.ts';

/** One field put right, in the words and unit a person knows it by; values as the lines have them. */
export interface FieldChange {
  readonly field: string;
  readonly was: FieldValue;
  readonly is: FieldValue;
}

/** A line that changed what stood before it. */
export interface Change {
  readonly kind:
    | 'certificate-replaced'
    | 'correction'
    | 'correction-overruled'
    | 'reading-put-back'
    | 'reading-voided';
  readonly written: Written;
  readonly reason: string;
  /** What was changed, as one would tell it. */
  readonly what: string;
  /** Line that was changed; null: a certificate. */
  readonly line: number | null;
  readonly fields: readonly FieldChange[];
}

/**
 * Everything that changed earlier lines, oldest first; each makes a new issue of the result. While
 * the test is open, voiding a reading is part of the day; at the desk it is a change.
 */
export function changesOf(session: SessionState): Change[] {
  return [...certificates(session), ...corrections(session), ...readings(session)].sort(
    (a, b) => a.written.line - b.written.line,
  );
}

function certificates({ replacedCertificates, certificates: inForce }: SessionState): Change[] {
  return replacedCertificates.map(({ certificate, written, reason }, k) => {
    const isOf = (one: { instrument: string }) => one.instrument === certificate.instrument;
    const next =
      replacedCertificates.slice(k + 1).find((one) => isOf(one.certificate))?.certificate ??
      inForce.find(isOf);
    const what = `certificate ${certificate.number} of ${certificate.instrument} replaced by ${next?.number}`;
    return { kind: 'certificate-replaced', written, reason, what, line: null, fields: [] };
  });
}

function corrections({ corrected }: SessionState): Change[] {
  return corrected.flatMap(({ line, asWritten, corrections: of }) =>
    of.flatMap(({ written, reason, changes, overruled }): Change[] => {
      const fields = fieldChanges(asWritten, changes);
      const named = fields.map(({ field }) => field).join('; ');
      const what = `line ${line} put right: ${named}`;
      const made: Change = { kind: 'correction', written, reason, what, line, fields };
      if (overruled === null) return [made];
      const back = fields.map(({ field, was, is }) => ({ field, was: is, is: was }));
      return [
        made,
        {
          kind: 'correction-overruled',
          ...overruled,
          what: `correction of line ${written.line} fell away: ${named}`,
          line: written.line,
          fields: back,
        },
      ];
    }),
  );
}

/** The changes of one correction in words. */
export function fieldChanges(body: CorrectableBody, changes: Correction['changes']): FieldChange[] {
  return changes.map(({ field, was, is }) => ({ field: fieldWords(body, field), was, is }));
}

function readings({ states, closed }: SessionState): Change[] {
  return states.flatMap(({ state, voided, putBack }) => {
    const atDesk = [...voided, ...putBack].filter(
      (one) => closed !== null && one.voided.line > closed.written.line,
    );
    const of = (line: number) => `reading of line ${line}, state ${state},`;
    return [
      ...atDesk.map(
        ({ voided: written, written: taken, reason }): Change => ({
          kind: 'reading-voided',
          written,
          reason,
          what: `${of(taken.line)} voided`,
          line: taken.line,
          fields: [],
        }),
      ),
      ...putBack.map(
        ({ putBack: { written, reason }, written: taken }): Change => ({
          kind: 'reading-put-back',
          written,
          reason,
          what: `${of(taken.line)} put back`,
          line: taken.line,
          fields: [],
        }),
      ),
    ];
  });
}
