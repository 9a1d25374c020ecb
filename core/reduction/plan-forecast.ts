import { Fault } from '../fault/fault.ts';
import type { Advice } from '../quantity/advice.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import {
  type Contribution,
  type Uncertain,
  uncertainFromContributions,
} from '../quantity/uncertainty.ts';
import {
  type MomentOfState,
  type MoveOfWeight,
  momentsOfMoves,
  type PlaceAboard,
} from '../shift/moment.ts';
import { checkPlan, LEAST_HEEL_DEG, STANDARD_MOVEMENTS } from '../shift/plan.ts';
import { LEAST_GM_M, type SafetyFact, STOP_AT_TIMES_PREDICTED } from '../shift/safety.ts';
import { fewestMovements, NO_SKIPPING } from '../shift/skip-rules.ts';
import { answerWithBudget, type BudgetRow, type Causes } from './budget.ts';
import type { GmProblem } from './gm.ts';
import type { PlanInput } from './plan-input.ts';

export interface PlannedShift {
  /** The state it leads to. */
  readonly state: number;
  readonly heelingMomentTM: number;
  readonly verticalMomentTM: number;
  /** From the first state, by the guess of GM. */
  readonly heelDeg: number;
  /** At the guess less and plus two of its standard uncertainties; null where GM would not be positive. */
  readonly heelIfTenderDeg: number | null;
  readonly heelIfStiffDeg: number;
  /** Heel at which the weight goes back and people off. */
  readonly stopDeg: number;
  readonly deflections: readonly { readonly instrument: string; readonly mm: number }[];
}

export interface PlanForecast {
  readonly shifts: readonly PlannedShift[];
  readonly gmM: Uncertain;
  /** KG of the fluid GM; null without KM. */
  readonly kgM: Uncertain | null;
  readonly budget: readonly BudgetRow[];
  readonly safety: readonly SafetyFact[];
  readonly advice: readonly Advice[];
  /** Under this GM nothing is begun. */
  readonly leastGmM: number;
}

/** Deflection to each side at the largest moments: IS Code annex 1 2.4.1 (from memory); six inches in US practice. */
export const LEAST_DEFLECTION_MM = 150;

/**
 * What a plan gives before the first weight moves: heel and deflection of each shift by the guess
 * of GM, the heel at which to stop, and the uncertainty of KG to be expected if states scatter as
 * stated. What can be seen to be wrong with the plan is said. Throws what `momentsOfMoves` throws.
 */
export function forecastPlan(plan: PlanInput): PlanForecast {
  const states = momentsOfMoves(plan.weights, movesOfPlan(plan));
  const gm = plan.gmGuessM;
  const displacement = plan.displacementT.value;
  const moments = states.map((state) => state.heelingMomentTM);
  const checked = checkPlan(moments.slice(1), displacement, gm.value);
  const heelAt = (moment: number, gmM: number) =>
    (Math.atan(moment / (displacement * gmM)) * 180) / Math.PI;
  const shifts = states.slice(1).map((state, k): PlannedShift => {
    const { heelingMomentTM, verticalMomentTM } = state;
    const heelDeg = checked.states[k]!.predictedHeelDeg;
    const tender = gm.value - 2 * gm.standardUncertainty;
    return {
      state: k + 1,
      heelingMomentTM,
      verticalMomentTM,
      heelDeg,
      heelIfTenderDeg: tender > 0 ? heelAt(heelingMomentTM, tender) : null,
      heelIfStiffDeg: heelAt(heelingMomentTM, gm.value + 2 * gm.standardUncertainty),
      stopDeg: STOP_AT_TIMES_PREDICTED * heelDeg,
      deflections: plan.instruments.flatMap(({ instrument, lengthMm }) =>
        lengthMm === undefined
          ? []
          : [{ instrument, mm: lengthMm * Math.tan(radiansFromDegrees(heelDeg)) }],
      ),
    };
  });
  const expected = expectedUncertainty(plan, states);
  return {
    shifts,
    ...expected,
    safety: checked.advice.filter((one) => !movementsAllowed(plan, one)),
    advice: planAdvice(plan, shifts),
    leastGmM: LEAST_GM_M,
  };
}

/** Fewer than eight movements go by where a skip rule that is on allows them. */
function movementsAllowed(plan: PlanInput, fact: SafetyFact): boolean {
  const fewest = fewestMovements(plan.skipRules ?? NO_SKIPPING);
  return fact.code === 'movements-few' && fact.planned >= Math.min(fewest, STANDARD_MOVEMENTS);
}

function movesOfPlan(plan: PlanInput): MoveOfWeight[][] {
  const stands = new Map<string, PlaceAboard>(plan.weights.map(({ weight, at }) => [weight, at]));
  return [
    [],
    ...plan.shifts.map(({ moves }) =>
      moves.map(({ weight, to }): MoveOfWeight => {
        const from = stands.get(weight);
        if (from === undefined) {
          throw new Fault('input-contradiction', 'shifts', `no weight is called ${weight}`);
        }
        stands.set(weight, to);
        return { weight, from, to };
      }),
    ),
  ];
}

/** The budget of the plan as if every state were read on the line, the scatter put in as stated. */
function expectedUncertainty(
  plan: PlanInput,
  states: readonly MomentOfState[],
): Pick<PlanForecast, 'gmM' | 'kgM' | 'budget'> {
  const displacement = plan.displacementT.value;
  const gm = plan.gmGuessM.value;
  const instruments = plan.instruments.length > 0 ? plan.instruments : [UNNAMED];
  const problem: GmProblem = {
    displacement,
    heelingMoments: states.map((state) => state.heelingMomentTM),
    verticalMoments: states.map(() => 0),
    tangents: states.map((state) =>
      instruments.map(() => state.heelingMomentTM / displacement / gm),
    ),
    metacentreMovement: 0,
  };
  const causes: Causes = {
    displacementUncertainty: plan.displacementT.standardUncertainty,
    km: plan.kmM ?? null,
    metacentreMovementUncertainty: 0,
    together: [],
    weights: plan.weights.map(({ weight, massT, standardUncertaintyT }, k) => ({
      weight,
      mass: massT,
      massUncertainty: standardUncertaintyT,
      moved: states.map(({ moved }) => ({ y: moved[k]!.yM, z: moved[k]!.zM })),
    })),
    massScaleUncertainty: plan.massScaleUncertainty ?? 0,
    distanceUncertainty: plan.distanceUncertaintyM,
    momentScaleUncertainty: 0,
    instruments: instruments.map(({ instrument, reads, scaleUncertainty }) => ({
      instrument,
      scaleUncertainty: scaleUncertainty ?? 0,
      space: reads === 'heel' ? 'sine' : 'tangent',
    })),
    angleScaleUncertainty: plan.angleScaleUncertainty ?? 0,
  };
  const answer = answerWithBudget(problem, causes);
  const scatter = scatterRow(plan, problem.heelingMoments, displacement, gm);
  const budget = [...answer.budget.filter((row) => row.cause !== scatter.cause), scatter].sort(
    (left, right) => (right.kg ?? right.gm) - (left.kg ?? left.gm),
  );
  const contributions = (of: (row: BudgetRow) => number): Contribution[] =>
    budget.map(({ cause, degreesOfFreedom, ...row }) => ({
      cause,
      degreesOfFreedom,
      standardUncertainty: of({ cause, degreesOfFreedom, ...row }),
    }));
  return {
    gmM: uncertainFromContributions(
      gm,
      contributions((row) => row.gm),
    ),
    kgM:
      plan.kmM === undefined
        ? null
        : uncertainFromContributions(
            plan.kmM.value - gm,
            contributions((row) => row.kg ?? row.gm),
          ),
    budget,
  };
}

const UNNAMED: PlanInput['instruments'][number] = { instrument: 'any instrument', reads: 'heel' };

/** u(GM) = GM^2 D u(tangent) / root of the moments' sum of squares about their mean. */
function scatterRow(
  plan: PlanInput,
  moments: readonly number[],
  displacement: number,
  gm: number,
): BudgetRow {
  const mean = moments.reduce((sum, one) => sum + one, 0) / moments.length;
  const squares = moments.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  if (squares === 0) throw new Fault('line-not-determined', 'shifts', 'no shift heels her');
  const size =
    (gm ** 2 * displacement * radiansFromDegrees(plan.stateUncertaintyDeg)) / Math.sqrt(squares);
  return {
    cause: 'scatter of the states',
    gm: size,
    kg: size,
    degreesOfFreedom: Math.max(1, moments.length - 2),
    parts: [],
    byDisplacement: false,
  };
}

function planAdvice(plan: PlanInput, shifts: readonly PlannedShift[]): Advice[] {
  const advice: Advice[] = [];
  for (const { instrument, lengthMm } of plan.instruments) {
    if (lengthMm === undefined) continue;
    for (const [side, sign] of [
      ['starboard', 1],
      ['port', -1],
    ] as const) {
      const most = Math.max(
        0,
        ...shifts.map((shift) => {
          const own = shift.deflections.find((one) => one.instrument === instrument);
          return sign * (own?.mm ?? 0);
        }),
      );
      if (most < LEAST_DEFLECTION_MM) {
        const where = `${instrument} to ${side}`;
        const limit = LEAST_DEFLECTION_MM;
        advice.push({ code: 'deflection-small', where, found: most, limit, unit: 'mm' });
      }
    }
  }
  const byHand = plan.instruments.filter((one) => one.reads !== 'heel').length;
  if (byHand === 0 && plan.instruments.length > 0) {
    const where = 'instruments';
    advice.push({ code: 'no-pendulum-beside', where, found: null, limit: null, unit: '' });
  }
  if (plan.instruments.length < 2) {
    const found = plan.instruments.length;
    advice.push({ code: 'instruments-few', where: 'instruments', found, limit: 2, unit: '' });
  }
  const largest = Math.max(...shifts.map((shift) => Math.abs(shift.heelDeg)));
  if (largest < LEAST_HEEL_DEG) {
    const limit = LEAST_HEEL_DEG;
    advice.push({ code: 'heel-not-lowered', where: 'plan', found: largest, limit, unit: 'deg' });
  }
  return advice;
}
