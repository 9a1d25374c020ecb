import { cannotShowList } from '../reduction/cannot-show.ts';
import { momentsOfMoves } from '../shift/moment.ts';
import { checkPlan } from '../shift/plan.ts';
import { type SafetyFact, safetyOfGm, safetyOfHeel } from '../shift/safety.ts';
import { gmOverKgAdvice } from '../survey/survey-advice.ts';
import type { SessionState } from './session.ts';
import { sessionEvidence } from './session-evidence.ts';
import type { ResultValue, SessionResult } from './session-result.ts';

/** What no plot can show, with the evidence the record holds. */
export function resultCannotShow(session: SessionState): SessionResult['cannotShow'] {
  return cannotShowList(sessionEvidence(session));
}

/** Reasons to stop, and advice: the plan's before the first shift, then the last reading and GM. */
export function resultSafety(session: SessionState, gmFluidM: ResultValue | null): SafetyFact[] {
  const { test, states } = session;
  if (test === null) return [];
  const { displacementT, gmGuessM, kmM } = test.particulars;
  const facts: SafetyFact[] = [];
  if (states.length <= 1) {
    const plan = momentsOfPlan(session);
    facts.push(...checkPlan(plan, displacementT, gmGuessM).advice);
  }
  const first = states[0]?.reading?.joined.heelDeg;
  const last = states.findLast((state) => state.reading !== null);
  if (first !== undefined && last?.reading != null && last.predictedHeelDeg !== null) {
    facts.push(
      ...safetyOfHeel({
        firstDeg: first,
        predictedDeg: last.predictedHeelDeg,
        seenDeg: last.reading.joined.heelDeg,
        standardErrorDeg: last.reading.joined.standardErrorDeg,
      }),
    );
  }
  if (gmFluidM === null) return facts;
  const gmM = gmFluidM.value;
  facts.push(...safetyOfGm(gmM, gmFluidM.halfWidth95));
  const kgM = kmM === null ? null : kmM - gmM;
  if (kgM !== null && gmOverKgAdvice(gmM, kgM).length > 0) {
    facts.push({ code: 'gm-over-three-kg', stop: false, gmM, kgM });
  }
  return facts;
}

/** Heeling moment after each planned shift. */
function momentsOfPlan({ test }: SessionState): number[] {
  if (test === null) return [];
  const places = new Map(test.weights.map(({ weight, at }) => [weight, at]));
  const moves = test.plan.map((shift) =>
    shift.moves.map(({ weight, to }) => {
      const from = places.get(weight) ?? to;
      places.set(weight, to);
      return { weight, from, to };
    }),
  );
  return momentsOfMoves(test.weights, moves).map((moment) => moment.heelingMomentTM);
}

/** How near the headline came, where a simulator declared the truth. */
export function resultTruth(
  { simulation }: SessionState,
  gmFluidM: ResultValue | null,
): SessionResult['truth'] {
  if (simulation === null) return null;
  const truth = simulation.truth.gmFluidM;
  const differenceM = gmFluidM === null ? null : gmFluidM.value - truth;
  return {
    gmFluidM: truth,
    differenceMm: differenceM === null ? null : 1000 * differenceM,
    insideInterval95:
      differenceM === null || gmFluidM === null
        ? null
        : Math.abs(differenceM) <= gmFluidM.halfWidth95,
  };
}
