import { conditionKg, upperKg95M } from '../condition/condition-uncertainty.ts';
import { Fault } from '../fault/fault.ts';
import { draughtsOf, type Hull } from '../hull/hull.ts';
import { plainDegreesOfFreedom, uncertainHalfWidth95 } from '../numerics/coverage.ts';
import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import {
  conditionEvidence,
  type EvidenceQuestion,
  type FloatingEvidence,
} from './condition-evidence.ts';
import { type ConditionEvidence, SIDES, type Side } from './evidence.ts';
import { changedLightship, growthOf, periodsOf } from './growth.ts';
import type { HistoryInput } from './history-input.ts';
import { countsAsMet, judgeCondition, type SetVerdict, type Signed } from './judge-condition.ts';
import { firstFall, greatest } from './lever-features.ts';
import { type LoadingInput, loadingOf } from './loading-input.ts';
import { newTestDue } from './new-test-due.ts';
import type { RuleSet } from './rule-set.ts';
import type { ConditionAnswer, SinceTests, StabilityOutput } from './stability-output.ts';
import { withVerified } from './verification.ts';

const STANDING = [
  'This is no approval. Local rules, the responsible licensed practitioner and the authority decide.',
  'Deck strength, freeboard marks, lifting gear and behaviour in a seaway are not judged.',
];

const POINTS_DEG = Array.from({ length: 37 }, (_, k) => 2.5 * k);

/**
 * All conditions of a loading file, or the one named `only`, judged by the rule sets given, unrounded.
 * Throws what `loadingOf` throws, and `loading-unknown` for a condition that is not there.
 */
export function stabilityAnswer(
  input: LoadingInput,
  hull: Hull,
  ruleSets: readonly RuleSet[],
  only?: string,
): StabilityOutput {
  const loading = loadingOf(input, hull);
  const questions = loading.questions.filter(
    ({ loaded }) => only === undefined || loaded.name === only,
  );
  if (questions.length === 0) throw new Fault('loading-unknown', 'conditions', `${only}`);
  const sets = withVerified(ruleSets, input.verified ?? []);
  return {
    heelwrightStability: 1,
    vessel: input.vessel,
    invented: input.invented ?? false,
    lightshipSource: input.lightship.source ?? null,
    notCounted: input.notCounted ?? [],
    questions: loading.asked.map(({ code, where }) => ({ code, where })),
    sinceTests: input.history === undefined ? null : sinceTests(input.history, input),
    conditions: questions.map((question) =>
      named(question.loaded.name, () => conditionAnswer(question, sets, input.signed ?? [])),
    ),
    standing: STANDING,
  };
}

function sinceTests(history: HistoryInput, { particulars }: LoadingInput): SinceTests {
  const { perpendiculars, overall, hull } = particulars.lengthsM;
  const lengthM = perpendiculars ?? hull ?? overall;
  if (lengthM === undefined)
    throw new Fault('loading-unknown', 'particulars.lengthsM', 'a length for the history');
  const plain = (one: Uncertain) => ({
    value: one.value,
    standardUncertainty: one.standardUncertainty,
    degreesOfFreedom: plainDegreesOfFreedom(one.degreesOfFreedom),
  });
  return {
    growth: growthOf(history),
    periods: periodsOf(history).map((one) => ({ ...one, differenceS: plain(one.differenceS) })),
    lightshipNow: changedLightship(history),
    clauses: newTestDue(history, lengthM),
  };
}

/** A fault of one condition says which. */
function named<T>(condition: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    const { code, where, found } = error.report;
    throw new Fault(code, `${condition}: ${where}`, found);
  }
}

function conditionAnswer(
  question: EvidenceQuestion,
  sets: readonly RuleSet[],
  signed: readonly Signed[],
): ConditionAnswer {
  const { loaded } = question;
  const evidence = conditionEvidence(question);
  const kg = conditionKg(loaded);
  const draughts = draughtsOf(question.hull, evidence.resting);
  const { kmTransverseM } = evidence.upright;
  return {
    condition: loaded.name,
    kind: question.kind,
    rows: loaded.rows.map(({ at, ...row }) => ({ ...row, ...at })),
    displacementT: evidence.displacementT,
    lcgM: loaded.centre.xM,
    tcgM: loaded.centre.yM,
    kgM: evidence.kgM,
    kgUncertainty: kg && {
      standardUncertainty: kg.standardUncertainty,
      halfWidth95: uncertainHalfWidth95(kg),
      upper95M: upperKg95M(kg),
    },
    kmTransverseM,
    freeSurfaceTM: loaded.freeSurfaceTM,
    gmSolidM: kmTransverseM - evidence.kgM,
    gmFluidM: evidence.gmFluidM('exact'),
    draughtAftM: draughts.aftM,
    draughtForwardM: draughts.forwardM,
    draughtMeanM: draughts.meanM,
    trimM: evidence.trimM,
    listDeg: degreesOrNull(evidence.listRad),
    leastFreeboardM: evidence.leastFreeboardM,
    sides: SIDES.map((side) => sideAnswer(evidence, question, side)),
    ruleSets: judgeCondition(sets, evidence).map((verdict) => setAnswer(verdict, signed)),
  };
}

function degreesOrNull(heelRad: number | null): number | null {
  return heelRad === null ? null : degreesFromRadians(heelRad);
}

function sideAnswer(
  evidence: FloatingEvidence,
  { openings }: EvidenceQuestion,
  side: Side,
): ConditionAnswer['sides'][number] {
  const exact = evidence.levers(side, 'exact');
  const at = (method: 'upright' | 'rd-543-2007', heelRad: number) =>
    evidence.levers(side, method).leverM(heelRad);
  const top = greatest(exact.leverM, 0, exact.mostHeelRad);
  const [thirty, forty] = [radiansFromDegrees(30), radiansFromDegrees(40)];
  return {
    side,
    points: POINTS_DEG.map((heelDeg) => {
      const heelRad = radiansFromDegrees(heelDeg);
      return {
        heelDeg,
        exactM: exact.leverM(heelRad),
        uprightM: at('upright', heelRad),
        formulaM: at('rd-543-2007', heelRad),
      };
    }),
    maximum: { heelDeg: degreesFromRadians(top.heelRad), leverM: top.leverM },
    vanishingDeg: degreesOrNull(vanishingRad(evidence, side)),
    deckEdgeDeg: degreesOrNull(evidence.deckEdgeRad(side)),
    openings: openings.map(({ opening, openFrom }) => ({
      opening: opening.name,
      openFrom,
      immersedDeg: degreesOrNull(evidence.openingRad(side, opening.name)),
    })),
    areasMRad: {
      to30: exact.areaMRad(0, thirty),
      to40: exact.areaMRad(0, forty),
      from30To40: exact.areaMRad(thirty, forty),
    },
  };
}

/** Where the exact lever goes to zero after having been positive. */
function vanishingRad(evidence: ConditionEvidence, side: Side): number | null {
  const { leverM, mostHeelRad } = evidence.levers(side, 'exact');
  return firstFall(leverM, 0, mostHeelRad);
}

function setAnswer(
  verdict: SetVerdict,
  signed: readonly Signed[],
): ConditionAnswer['ruleSets'][number] {
  return {
    ...verdict,
    notes: [...verdict.notes],
    outside: [...verdict.outside],
    clauses: verdict.clauses.map((clause) => {
      const { ruleSet: _, ...own } = clause;
      const figures = clause.figures.map((one) => ({ ...one }));
      return { ...own, figures, countsAsMet: countsAsMet(clause, signed) };
    }),
  };
}
