import { comparePoints } from '../flotation/water-surface-check.ts';
import { ADVICE, type Advice } from '../quantity/advice.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import type { Answer } from './budget.ts';
import type { ExactAnswer } from './exact.ts';
import type { ReductionOutput } from './reduction-output.ts';
import { budgetOut, figure, inDegrees, type UnitWords } from './reduction-parts.ts';
import type { TestFloat } from './test-float.ts';

export function exactOut(
  units: UnitWords,
  exact: ExactAnswer | null,
  freeSurfaceShare: number,
): ReductionOutput['exact'] {
  if (exact === null) return null;
  const { answer, gmSolidM, freeSurfaceM, kmM } = exact;
  const solid: Uncertain = {
    ...answer.gm,
    value: gmSolidM,
    standardUncertainty: Math.hypot(answer.gm.standardUncertainty, freeSurfaceM * freeSurfaceShare),
  };
  return {
    gmFluid: figure(answer.gm, units.length),
    gmSolid: figure(solid, units.length),
    kgSolid: figure(answer.kg!, units.length),
    km: kmM,
    freeSurface: freeSurfaceM,
    stiffness: figure(answer.stiffness, units.moment),
    listDeg: inDegrees(answer.solution.fit.listTangent),
    budget: budgetOut(answer, units.length),
  };
}

export function floatOut(float: TestFloat | null): ReductionOutput['float'] {
  if (float === null) return null;
  const { afloat, fit, densityKgM3, liquids, hullEvidence } = float;
  const compared = new Map(comparePoints(fit).map((one) => [one.point, one]));
  return {
    displacement: figure(afloat.displacementT, 't'),
    km: figure(afloat.kmM, 'm'),
    lcb: figure(afloat.lcbM, 'm'),
    tcb: afloat.tcbM,
    vcb: afloat.vcbM,
    metacentreMovement: afloat.metacentreMovementM,
    density: figure(densityKgM3, 'kg/m3'),
    draughtAft: afloat.draughtAftM,
    draughtMidships: afloat.draughtMidshipsM,
    draughtForward: afloat.draughtForwardM,
    trim: afloat.trimM,
    heelDeg: afloat.heelDeg,
    sag: afloat.sagM,
    massPerDraught: afloat.tonnesPerM,
    hullKnown: hullEvidence,
    points: fit.levels.map(({ point }, i) => {
      const one = compared.get(point);
      return {
        point,
        leftOver: fit.residualsM[i]!,
        off: one?.offM ?? null,
        probability: one?.probability ?? null,
        bad: one?.bad ?? false,
      };
    }),
    liquids: liquids.map(({ tank, volumeM3, densityTM3 }) => ({
      tank,
      volume: volumeM3,
      mass: volumeM3 * densityTM3,
    })),
  };
}

export function adviceOut(advice: readonly Advice[]): ReductionOutput['advice'] {
  return advice.map((one) => ({ ...one, ...ADVICE[one.code] }));
}

/** The waterline's causes stand beside each other in the answer's own evidence. */
export function floatEvidence(float: TestFloat | null): { displacement?: string; km?: string } {
  if (float === null) return {};
  const { levels } = float.fit;
  const count = (kind: string) => levels.filter((one) => one.kind === kind).length;
  const read = `${count('freeboard')} freeboards, ${count('draught-mark')} draught marks, water sampled`;
  return { displacement: read, km: `hull lines at the waterline of ${read}` };
}

/** The answer the others stand beside. */
export function headlineOf(
  official: ReductionOutput['headline'] | undefined,
  answers: { classical: Answer; moved: Answer | null; exact: ExactAnswer | null },
): { name: ReductionOutput['headline']; answer: Answer } {
  const { classical, moved, exact } = answers;
  const known = [
    ...(exact === null ? [] : [{ name: 'exact' as const, answer: exact.answer }]),
    ...(moved === null ? [] : [{ name: 'metacentre-movement' as const, answer: moved }]),
    { name: 'classical' as const, answer: classical },
  ];
  return known.find((one) => one.name === official) ?? known[0]!;
}
