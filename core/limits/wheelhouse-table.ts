import { conditionKg, upperKg95M } from '../condition/condition-uncertainty.ts';
import { conditionEvidence, type EvidenceQuestion } from '../stability/condition-evidence.ts';
import type { RuleSet } from '../stability/rule-set.ts';
import { wholeTank } from '../survey/tank-liquid.ts';
import { atUpperKg } from './at-upper-kg.ts';
import { type ClauseNamed, checkClauses } from './clause-check.ts';
import { limitingKg } from './limiting-kg.ts';

/** One condition the crew may or may not be in, by the upper one-sided 95 % of KG. */
export interface WheelhouseRow {
  readonly condition: string;
  readonly displacementT: number;
  readonly meanDraughtM: number;
  readonly trimM: number;
  readonly leastFreeboardM: number;
  readonly slackTanks: readonly string[];
  /** Null where the lightship's uncertainty is not known: the condition is then kept out. */
  readonly upperKgM: number | null;
  /** At this displacement and trim, with these tanks slack; null: no KG meets every clause. */
  readonly limitingKgM: number | null;
  readonly governing: readonly ClauseNamed[];
  /** The whole condition, list included, meets every clause that judges at its upper KG. */
  readonly within: boolean;
}

/** What has to stand over the table, since it holds only so. */
export interface WheelhouseHeading {
  readonly takenAsShut: readonly string[];
  readonly openAtSea: readonly string[];
  readonly openAtWorst: readonly string[];
  readonly neverShut: readonly string[];
  readonly notJudged: readonly string[];
}

export interface WheelhouseTable {
  readonly heading: WheelhouseHeading;
  readonly rows: readonly WheelhouseRow[];
}

const NOT_JUDGED = ['deck strength', 'freeboard marks', 'lifting gear', 'behaviour in a seaway'];

/** Throws what `limitingKg` throws. All conditions are of one vessel with her openings kept alike. */
export function wheelhouseTable(
  questions: readonly EvidenceQuestion[],
  sets: readonly RuleSet[],
): WheelhouseTable {
  return {
    heading: headingOf(questions[0]),
    rows: questions.map((question) => rowOf(question, sets)),
  };
}

function headingOf(question: EvidenceQuestion | undefined): WheelhouseHeading {
  const named = (from: EvidenceQuestion['openings'][number]['openFrom']) =>
    (question?.openings ?? [])
      .filter(({ openFrom }) => openFrom === from)
      .map(({ opening }) => opening.name);
  return {
    takenAsShut: named(null),
    openAtSea: named('open-at-sea'),
    openAtWorst: named('open-at-worst'),
    neverShut: named('weathertight'),
    notJudged: NOT_JUDGED,
  };
}

function rowOf(question: EvidenceQuestion, sets: readonly RuleSet[]): WheelhouseRow {
  const { loaded, ...ask } = question;
  const evidence = conditionEvidence(question);
  const { displacementT, upright } = evidence;
  const slack = loaded.liquids.filter(
    ({ shape, volumeM3 }) => volumeM3 < wholeTank(shape).volumeM3 * (1 - 1e-9),
  );
  const lightshipT = loaded.rows.find(({ kind }) => kind === 'lightship')?.massT ?? 0;
  const trimM = upright.draughtAftM - upright.draughtForwardM;
  const limit = limitingKg({ ask, slack, lightshipT, sets }, displacementT, trimM);
  const kg = conditionKg(loaded);
  const upperKgM = kg && upperKg95M(kg);
  const within = upperKgM !== null && limit.kgM !== null && upperKgM <= limit.kgM;
  return {
    condition: loaded.name,
    displacementT,
    meanDraughtM: evidence.meanDraughtM,
    trimM,
    leastFreeboardM: evidence.leastFreeboardM,
    slackTanks: slack.map(({ tank }) => tank),
    upperKgM,
    limitingKgM: limit.kgM,
    governing: limit.governing,
    within: within && isMetAsSheLies(question, sets),
  };
}

/** The limit is of a vessel upright; a list may take what it leaves. */
function isMetAsSheLies(question: EvidenceQuestion, sets: readonly RuleSet[]): boolean {
  const upper = atUpperKg(question);
  return upper !== null && checkClauses(sets, conditionEvidence(upper)).met;
}
