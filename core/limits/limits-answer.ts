import type { Hull } from '../hull/hull.ts';
import type { EvidenceQuestion } from '../stability/condition-evidence.ts';
import type { ClauseVerdict } from '../stability/judge-clause.ts';
import { type LoadingInput, loadingOf } from '../stability/loading-input.ts';
import type { RuleSet } from '../stability/rule-set.ts';
import { withVerified } from '../stability/verification.ts';
import { type LoadChange, withChange } from './change.ts';
import { type JudgedPicture, type Judging, judgedPicture } from './judged-picture.ts';
import { limitingKgTable } from './limiting-kg.ts';
import type { LimitsOutput } from './limits-output.ts';
import { mostHere } from './most-here.ts';
import { remediesFor } from './remedies.ts';
import { wheelhouseTable } from './wheelhouse-table.ts';

/** What of limits is asked; null is not asked. */
export interface LimitsAsked {
  /** One condition alone, by its name. */
  readonly only: string | null;
  readonly limitingKg: {
    readonly displacementsT: readonly number[];
    readonly trimsM: readonly number[];
  } | null;
  readonly wheelhouse: boolean;
  readonly remedies: boolean;
  readonly change: LoadChange | null;
}

/** Limits, table, remedies and the answer to "what if", of the conditions of a loading file. */
export function limitsAnswer(
  input: LoadingInput,
  hull: Hull,
  ruleSets: readonly RuleSet[],
  asked: LimitsAsked,
): LimitsOutput {
  const sets = withVerified(ruleSets, input.verified ?? []);
  const questions = loadingOf(input, hull).questions.filter(
    ({ loaded }) => asked.only === null || loaded.name === asked.only,
  );
  const judging = { sets, signed: input.signed ?? [] };
  const { change } = asked;
  return {
    limitingKg: asked.limitingKg && limitingOf(input, questions[0]!, sets, asked.limitingKg),
    wheelhouse: asked.wheelhouse ? tableOf(questions, sets) : null,
    remedies: asked.remedies ? remediesOf(questions, sets) : null,
    whatIf: change && questions.map((question) => whatIfOf(question, judging, change)),
  };
}

function limitingOf(
  { lightship }: LoadingInput,
  { loaded: _, ...ask }: EvidenceQuestion,
  sets: readonly RuleSet[],
  { displacementsT, trimsM }: NonNullable<LimitsAsked['limitingKg']>,
): NonNullable<LimitsOutput['limitingKg']> {
  const question = { ask, slack: [], lightshipT: lightship.mass.value, sets };
  return limitingKgTable(question, displacementsT, trimsM).map((row) => ({
    ...row,
    governing: [...row.governing],
  }));
}

function tableOf(
  questions: readonly EvidenceQuestion[],
  sets: readonly RuleSet[],
): NonNullable<LimitsOutput['wheelhouse']> {
  const { heading, rows } = wheelhouseTable(questions, sets);
  const { takenAsShut, openAtSea, openAtWorst, neverShut, notJudged } = heading;
  return {
    heading: {
      takenAsShut: [...takenAsShut],
      openAtSea: [...openAtSea],
      openAtWorst: [...openAtWorst],
      neverShut: [...neverShut],
      notJudged: [...notJudged],
    },
    rows: rows.map((row) => ({
      ...row,
      slackTanks: [...row.slackTanks],
      governing: [...row.governing],
    })),
  };
}

function remediesOf(
  questions: readonly EvidenceQuestion[],
  sets: readonly RuleSet[],
): NonNullable<LimitsOutput['remedies']> {
  return questions.flatMap((question) => {
    const found = remediesFor(question, sets);
    if (found === null || found.failing.length === 0) return [];
    const { failing, kgTooHighM, remedies } = found;
    return [
      {
        condition: question.loaded.name,
        failing: [...failing],
        kgTooHighM,
        remedies: [...remedies],
      },
    ];
  });
}

function whatIfOf(
  question: EvidenceQuestion,
  judging: Judging,
  change: LoadChange,
): NonNullable<LimitsOutput['whatIf']>[number] {
  const most = mostHere(question, judging, change);
  return {
    condition: question.loaded.name,
    change: change.what,
    before: figuresOf(judgedPicture(question, judging)),
    after: figuresOf(judgedPicture(withChange(question, change), judging)),
    most: most && { ...most, governs: clauseName(most.governs) },
  };
}

function clauseName(clause: ClauseVerdict | null): string | null {
  return clause && `${clause.ruleSet} ${clause.clause}`;
}

type Figures = NonNullable<LimitsOutput['whatIf']>[number]['before'];

function figuresOf(picture: JudgedPicture): Figures {
  const { answer, displacementT, kgM, gmFluidM, meanDraughtM, trimM } = picture;
  const { leastFreeboardM, listDeg } = picture;
  return {
    displacementT,
    kgM,
    gmFluidM,
    meanDraughtM,
    trimM,
    leastFreeboardM,
    listDeg,
    outcome: answer.outcome,
    governs: clauseName(answer.governs),
  };
}
