import { Fault } from '#core/fault/fault.ts';
import type { HullText } from '#core/record/entry-line.ts';
import { jpegRefusal } from '#core/record/jpeg.ts';
import { entryRefusal } from '#core/session/entry-refusal.ts';
import { photographRefusal } from '#core/session/fold-entries.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Act } from '#core/wire/screen-message.ts';
import type { RecordFile, WhoWrites } from './record-file.ts';

export interface SurveyParts {
  readonly record: Pick<RecordFile, 'append'>;
  readonly session: () => SessionState;
  /** Reads a hull's text away from the loop; rejects with what is wrong in it. */
  readonly checkHull: (hull: HullText) => Promise<void>;
}

export type SurveyAct = Extract<Act, { kind: 'enter' | 'photograph' }>;

/** A row of a sheet or a picture becomes a line, or is refused with why. */
export async function actOfSurvey(
  act: SurveyAct,
  parts: SurveyParts,
  who: WhoWrites,
): Promise<void> {
  const { record, session } = parts;
  if (act.kind === 'photograph') {
    const { photograph } = act;
    const refusal = photographRefusal(session().survey);
    if (refusal !== null) throw refusal;
    const unfit = jpegRefusal(Buffer.from(photograph.jpeg, 'base64'));
    if (unfit !== null) throw new Fault('photograph-unfit', 'photograph', unfit);
    record.append('photograph', photograph, who);
    return;
  }
  const { entry } = act;
  const before = entryRefusal(session(), entry);
  if (before !== null) throw before;
  if (entry.sheet === 'hull' && entry.value !== null) await parts.checkHull(entry.value);
  // While the hull was read, another may have entered one.
  const refusal = entryRefusal(session(), entry);
  if (refusal !== null) throw refusal;
  record.append('entry', entry, who);
}
