import { Fault } from '#core/fault/fault.ts';
import {
  isSigned,
  receiptSignedText,
  type Seen,
  sealSignedText,
} from '#core/record/signed-by-key.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Act } from '#core/wire/screen-message.ts';
import type { RecordFile, WhoWrites } from './record-file.ts';

export type ActOfPeople = Extract<
  Act,
  { kind: 'ask' | 'answer-witness' | 'take-receipt' | 'seal' | 'sign' | 'technician-work' }
>;

export interface PeopleParts {
  readonly record: RecordFile;
  readonly session: () => SessionState;
  /** SHA-256 of the last of the first so many lines, or null when that is too long ago. */
  readonly headOf: (lines: number) => string | null;
}

/** What witness and architect say to each other, receipt, seal and sign. Throws the fault it is refused with. */
export function actOfPeople(act: ActOfPeople, parts: PeopleParts, who: WhoWrites): void {
  const { record, session } = parts;
  switch (act.kind) {
    case 'ask': {
      requireLine(act.line, session());
      record.append('witness-asked', { what: act.what, text: act.text, line: act.line }, who);
      return;
    }
    case 'answer-witness': {
      const { asks } = session().people;
      if (!asks.some(({ written }) => written.line === act.line))
        throw new Fault('act-not-now', act.kind, `line ${act.line} asks for nothing`);
      record.append('witness-answered', { line: act.line, text: act.text }, who);
      return;
    }
    case 'take-receipt':
      receipt(act, parts, who);
      return;
    case 'seal':
      record.append('seal', { reason: act.reason }, who);
      return;
    case 'sign':
      sign(act, parts, who);
      return;
    case 'technician-work': {
      const { allowed, reason } = act;
      record.append('technician-work', { allowed, reason }, who);
      return;
    }
  }
}

function receipt(
  act: Extract<Act, { kind: 'take-receipt' }>,
  { record, session, headOf }: PeopleParts,
  who: WhoWrites,
): void {
  const { kind, ...body } = act;
  if (headOf(act.lines) !== act.head)
    throw new Fault('receipt-not-ours', kind, `the head of ${act.lines} lines`);
  const seen = { record: recordOf(session()), number: act.lines, digest: act.head };
  if (!isSigned(receiptSignedText(seen), act.signature, act.publicKey))
    throw new Fault('record-signature', kind, 'the signature is not of this receipt');
  record.append('receipt-taken', body, who);
}

function sign(
  act: Extract<Act, { kind: 'sign' }>,
  { record, session, headOf }: PeopleParts,
  who: WhoWrites,
): void {
  const { kind, ...body } = act;
  const seal = session().people.seals.find(({ written }) => written.line === act.seal);
  const digest = headOf(act.seal + 1);
  if (seal === undefined || digest === null)
    throw new Fault('act-not-now', kind, `line ${act.seal} is no seal that can be signed now`);
  const seen: Seen = { record: recordOf(session()), number: act.seal, digest };
  if (!isSigned(sealSignedText(seen), act.signature, act.publicKey))
    throw new Fault('record-signature', kind, 'the signature is not of this seal');
  if (seal.signatures.some(({ publicKey }) => publicKey === act.publicKey))
    throw new Fault('act-not-now', kind, 'this key has signed it already');
  record.append('signature', body, who);
}

function recordOf({ record }: SessionState): string {
  if (record === null) throw new Fault('act-not-now', 'sign', 'the record has no first line');
  return record;
}

export function requireLine(line: number | null, { lines }: SessionState): void {
  if (line !== null && line >= lines)
    throw new Fault('input-shape', 'line', `there is no line ${line}`);
}
