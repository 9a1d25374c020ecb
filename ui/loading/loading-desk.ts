import type { LightshipInput } from '#core/condition/lightship-input.ts';
import { TRIP_QUESTIONS } from '#core/condition/trip.ts';
import { FAULTS, Fault, type FaultReport } from '#core/fault/fault.ts';
import { type LoadChange, loadChange, withChange } from '#core/limits/change.ts';
import { type JudgedPicture, type Judging, judgedPicture } from '#core/limits/judged-picture.ts';
import { type MostHere, mostHere } from '#core/limits/most-here.ts';
import { type Remedies, remediesFor } from '#core/limits/remedies.ts';
import { type HullFile, hullOfText } from '#core/session/hull-of-text.ts';
import type { EvidenceQuestion } from '#core/stability/condition-evidence.ts';
import { type LoadingInput, loadingInput, loadingOf } from '#core/stability/loading-input.ts';
import { ruleSetFromJson } from '#core/stability/rule-set.ts';
import { ruleSetsNamed } from '#core/stability/rules/all-rule-sets.ts';
import { withVerified } from '#core/stability/verification.ts';
import { hullAmong, jsonOf, type LoadingFiles } from './loading-files.ts';

/** What the page asks the worker for. A question names itself, so that an old answer is known as such. */
export type DeskQuestion =
  | {
      readonly id: number;
      readonly ask: 'open';
      readonly files: LoadingFiles;
      /** The record's hull, for where no file is one. */
      readonly recordHull: HullFile | null;
      /** Instead of the file's own; null: the file's. */
      readonly lightship: LightshipInput | null;
    }
  | {
      readonly id: number;
      readonly ask: 'judge' | 'most' | 'remedies';
      readonly condition: number;
      readonly change: LoadChange | null;
    };

/** A loading file as it was understood. */
export interface OpenedLoading {
  readonly vessel: string;
  readonly invented: boolean;
  readonly lightship: LoadingInput['lightship'];
  readonly notCounted: readonly string[];
  readonly openings: LoadingInput['openings'];
  readonly conditions: readonly string[];
  readonly asked: readonly { readonly where: string; readonly words: string }[];
}

export type DeskAnswer = { readonly id: number } & (
  | { readonly answer: 'opened'; readonly opened: OpenedLoading }
  | {
      readonly answer: 'judged';
      readonly now: JudgedPicture;
      readonly changed: JudgedPicture | null;
    }
  | { readonly answer: 'most'; readonly most: MostHere | null }
  | { readonly answer: 'remedies'; readonly remedies: Remedies | null }
  | { readonly answer: 'refused'; readonly fault: FaultReport; readonly remedy: string }
);

interface Open {
  readonly questions: readonly EvidenceQuestion[];
  readonly judging: Judging;
  /** Conditions already judged as they are. */
  readonly judged: Map<number, JudgedPicture>;
}

/** Answers the page's questions one after the other. Faults are answers, never thrown. */
export function loadingDesk(): (question: DeskQuestion) => DeskAnswer {
  let open: Open | null = null;
  return (question) => {
    const { id } = question;
    try {
      if (question.ask === 'open') {
        const [opened, made] = openedFrom(question);
        open = made;
        return { id, answer: 'opened', opened };
      }
      if (open === null) throw new Fault('input-too-few', 'loading', 'no loading file is open');
      return { id, ...answered(open, question) };
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      const remedy = FAULTS[error.code].remedy;
      return { id, answer: 'refused', fault: error.report, remedy };
    }
  };
}

function openedFrom({ files, recordHull, lightship }: Opening): [OpenedLoading, Open] {
  const file = files.loading;
  if (file === null) throw new Fault('input-too-few', 'loading', 'no loading file is open');
  const hullFile = hullAmong(files) ?? recordHull;
  if (hullFile === null)
    throw new Fault('input-too-few', 'hull', 'none is in the record and none was opened');
  const written = inputOf(jsonOf(file), file.name);
  const input = lightship === null ? written : { ...written, lightship };
  const hull = hullOfText(hullFile);
  if (hull === null)
    throw new Fault('input-shape', hullFile.file, 'levers need the lines of a hull, not tables');
  const loading = loadingOf(input, hull);
  const own = files.rules.map((one) => ruleSetFromJson(jsonOf(one), one.name));
  const sets = withVerified(ruleSetsNamed(input.ruleSets, own), input.verified ?? []);
  return [
    {
      vessel: input.vessel,
      invented: input.invented ?? false,
      lightship: input.lightship,
      notCounted: input.notCounted ?? [],
      openings: input.openings,
      conditions: loading.questions.map((one) => one.loaded.name),
      asked: loading.asked.map(({ code, where }) => ({ where, words: TRIP_QUESTIONS[code] })),
    },
    {
      questions: loading.questions,
      judging: { sets, signed: input.signed ?? [] },
      judged: new Map(),
    },
  ];
}

function inputOf(json: unknown, where: string): LoadingInput {
  const checked = loadingInput.safeParse(json);
  if (checked.success) return checked.data;
  const [issue] = checked.error.issues;
  const field = issue?.path.map(String).join('.') || 'the whole';
  throw new Fault('input-shape', `${where}: ${field}`, issue?.message ?? 'not of the agreed form');
}

type Opening = Extract<DeskQuestion, { ask: 'open' }>;
type Asked = Exclude<DeskQuestion, { ask: 'open' }>;
type Answered =
  | { answer: 'judged'; now: JudgedPicture; changed: JudgedPicture | null }
  | { answer: 'most'; most: MostHere | null }
  | { answer: 'remedies'; remedies: Remedies | null };

function answered(open: Open, { ask, condition, change: typed }: Asked): Answered {
  const question = open.questions[condition];
  if (question === undefined)
    throw new Fault('loading-unknown', 'condition', `number ${condition + 1}`);
  const change = typed === null ? null : changeOf(typed);
  if (ask === 'most')
    return {
      answer: 'most',
      most: change === null ? null : mostHere(question, open.judging, change),
    };
  if (ask === 'remedies') {
    const asked = change === null ? question : withChange(question, change);
    return { answer: 'remedies', remedies: remediesFor(asked, open.judging.sets) };
  }
  const now = open.judged.get(condition) ?? judgedPicture(question, open.judging);
  open.judged.set(condition, now);
  const changed =
    change === null ? null : judgedPicture(withChange(question, change), open.judging);
  return { answer: 'judged', now, changed };
}

function changeOf(typed: LoadChange): LoadChange {
  const checked = loadChange.safeParse(typed);
  if (checked.success) return checked.data;
  const [issue] = checked.error.issues;
  throw new Fault(
    'input-range',
    issue?.path.map(String).join('.') || 'change',
    issue?.message ?? '',
  );
}
