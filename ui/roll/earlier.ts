import { ownCoefficient } from '#core/reduction/roll-coefficient.ts';
import { type KeptRollTest, keptRollTest, rollHistory } from '#core/reduction/roll-history.ts';

/** An earlier roll test as it is typed off a report. */
export interface TypedTest {
  date: string;
  condition: string;
  periodS: string;
  /** Plus or minus, 95 %. */
  halfWidthS: string;
  runs: string;
  /** Fluid GM by inclining in that condition, and its 95 % half width; empty where none was. */
  gmM: string;
  gmHalfWidthM: string;
}

export const NOTHING_TYPED: Readonly<TypedTest> = {
  date: '',
  condition: '',
  periodS: '',
  halfWidthS: '',
  runs: '3',
  gmM: '',
  gmHalfWidthM: '',
};

/** Half a 95 % interval in standard uncertainties, where no degrees of freedom are printed. */
const OF_95 = 1.959963984540054;

/** Comma or point; null for nothing typed, NaN for no number. */
export function numberTyped(typed: string): number | null {
  return typed.trim() === '' ? null : Number(typed.trim().replace(',', '.'));
}

/** The test it says, for a vessel of this beam; null while it is not complete or no test. */
export function earlierTest(typed: TypedTest, beamM: number): KeptRollTest | null {
  const periodS = measured(typed.periodS, typed.halfWidthS);
  const gm = measured(typed.gmM, typed.gmHalfWidthM);
  if (periodS === null || (gm === null && typed.gmM.trim() + typed.gmHalfWidthM.trim() !== ''))
    return null;
  const own = gm === null ? null : ownCoefficient(periodS, gm, beamM);
  const parsed = keptRollTest.safeParse({
    date: typed.date.trim(),
    condition: typed.condition.trim(),
    beamM,
    displacementT: null,
    runs: numberTyped(typed.runs),
    periodS: periodS.value,
    periodUncertaintyS: periodS.standardUncertainty,
    periodDegreesOfFreedom: null,
    dampingRatio: null,
    gmFluidM: gm?.value ?? null,
    gmUncertaintyM: gm?.standardUncertainty ?? null,
    ownCoefficient: own?.value ?? null,
    ownCoefficientUncertainty: own?.standardUncertainty ?? null,
    ownCoefficientDegreesOfFreedom: null,
  });
  return parsed.success ? parsed.data : null;
}

function measured(typedValue: string, typedHalfWidth: string) {
  const value = numberTyped(typedValue);
  const halfWidth = numberTyped(typedHalfWidth);
  if (value === null || halfWidth === null) return null;
  return {
    value,
    standardUncertainty: halfWidth / OF_95,
    degreesOfFreedom: Number.POSITIVE_INFINITY,
  };
}

/** The tests of a history that `heelwright roll --keep` wrote; null for any other file. */
export function testsOfFile(text: string): readonly KeptRollTest[] | null {
  try {
    const parsed = rollHistory.safeParse(JSON.parse(text));
    return parsed.success ? parsed.data.tests : null;
  } catch (error) {
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}
