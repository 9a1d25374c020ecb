import type { Afloat, FloatCause } from '../flotation/afloat.ts';
import type { WaterSurface } from '../flotation/water-surface.ts';
import type { MassCause } from '../survey/lightship.ts';
import type { MassMoments } from '../survey/mass-moments.ts';
import type { Answer } from './budget.ts';

/** The vessel as inclined, in her first state: mass and moments, and each error as it moves them together. */
export interface AsInclined {
  readonly moments: MassMoments;
  readonly causes: readonly MassCause[];
}

/**
 * Mass and centre of gravity as inclined. She rests, so her centre of gravity lies over her centre of
 * buoyancy: LCG = LCB + (KG - KB) tan(trim), TCG = TCB - (KG - KB) tan(heel). `kgM` is KG solid;
 * `answer` the one it comes from, whose budget says what each cause does to KG. Causes of the
 * waterline move mass, centres and KG together; they keep their names, independent parts numbered.
 */
export function asInclined(
  afloat: Afloat,
  surface: WaterSurface,
  answer: Answer,
  kgM: number,
): AsInclined {
  const mass = afloat.displacementT.value;
  const arm = kgM - afloat.vcbM;
  const x = afloat.lcbM.value + arm * surface.trimSlope;
  const y = afloat.tcbM - arm * surface.heelSlope;
  const numbers = new Map<string, number>();
  const floated = afloat.causes.map((one): MassCause => {
    const k = numbers.get(one.cause) ?? 0;
    numbers.set(one.cause, k + 1);
    const kg = partsOf(answer, one.cause)[k]?.kg ?? 0;
    return floatedCause(one, k, kg, { mass, arm, x, y, kgM, surface });
  });
  const others = answer.budget
    .filter((row) => !numbers.has(row.cause))
    .flatMap((row): MassCause[] => {
      const parts = row.parts.length > 0 ? row.parts : [{ kg: row.kg ?? row.gm }];
      return parts.map((part, k) => ({
        cause: named(row.cause, k),
        degreesOfFreedom: row.degreesOfFreedom,
        massT: 0,
        xTM: 0,
        yTM: 0,
        zTM: mass * part.kg,
      }));
    });
  return {
    moments: { massT: mass, xTM: mass * x, yTM: mass * y, zTM: mass * kgM },
    causes: [...floated, ...others],
  };
}

const named = (cause: string, k: number) => (k === 0 ? cause : `${cause}, part ${k + 1}`);

function partsOf({ budget }: Answer, cause: string): readonly { kg: number }[] {
  return budget.find((row) => row.cause === cause)?.parts ?? [];
}

interface At {
  readonly mass: number;
  readonly arm: number;
  readonly x: number;
  readonly y: number;
  readonly kgM: number;
  readonly surface: WaterSurface;
}

function floatedCause(one: FloatCause, k: number, kg: number, at: At): MassCause {
  const arm = kg - one.vcbM;
  const x = one.lcbM + arm * at.surface.trimSlope + at.arm * one.trimSlope;
  const y = one.tcbM - arm * at.surface.heelSlope - at.arm * one.heelSlope;
  return {
    cause: named(one.cause, k),
    degreesOfFreedom: one.degreesOfFreedom,
    massT: one.displacementT,
    xTM: at.x * one.displacementT + at.mass * x,
    yTM: at.y * one.displacementT + at.mass * y,
    zTM: at.kgM * one.displacementT + at.mass * kg,
  };
}
