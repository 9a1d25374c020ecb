import type { LightshipInput } from '#core/condition/lightship-input.ts';
import type { ReductionOutput } from '#core/reduction/reduction-output.ts';
import type { Service } from '#core/stability/evidence.ts';
import type { TextFile } from '../prepare/hull-files.ts';
import { numberOf } from '../survey/typed.ts';

/** A lightship and what is needed beside it, as typed; uncertainties may be left empty. */
export interface TypedLoading {
  readonly massT: string;
  readonly lcgM: string;
  readonly vcgM: string;
  readonly vcgUncertaintyM: string;
  readonly massUncertaintyT: string;
  readonly densityKgM3: string;
  readonly regulationLengthM: string;
  readonly service: Service;
  readonly ruleSet: string;
}

export const NOTHING_TYPED: TypedLoading = {
  massT: '',
  lcgM: '',
  vcgM: '',
  vcgUncertaintyM: '',
  massUncertaintyT: '',
  densityKgM3: '1025',
  regulationLengthM: '',
  service: 'workboat',
  ruleSet: 'us-46-cfr-170-173',
};

/** A loading file of one condition, the lightship by itself; null until every figure is a number. */
export function loadingTyped(
  typed: TypedLoading,
  vessel: string,
  beamM: number | null,
): TextFile | null {
  const [mass, lcg, vcg, density, length] = [
    typed.massT,
    typed.lcgM,
    typed.vcgM,
    typed.densityKgM3,
    typed.regulationLengthM,
  ].map(numberOf);
  if (mass == null || lcg == null || vcg == null || density == null || length == null) return null;
  const uncertain = (value: number, text: string) => {
    const standardUncertainty = numberOf(text);
    return standardUncertainty === null ? { value } : { value, standardUncertainty };
  };
  const file = {
    heelwrightLoading: 1,
    vessel,
    hull: 'of the record',
    densityKgM3: density,
    particulars: {
      lengthsM: { regulation: length },
      services: [typed.service],
      hulls: 'mono',
      decked: true,
      ...(beamM === null ? {} : { beamM }),
    },
    lightship: {
      mass: uncertain(mass, typed.massUncertaintyT),
      lcg: { value: lcg },
      tcg: { value: 0 },
      vcg: uncertain(vcg, typed.vcgUncertaintyM),
      source: 'typed on this page',
    },
    spaces: [],
    openings: [],
    ruleSets: [typed.ruleSet],
    conditions: [{ condition: 'lightship', kind: 'working', fillings: [], items: [] }],
  };
  return { name: 'typed on this page', text: JSON.stringify(file) };
}

/** The lightship of this test's own result, with its uncertainties; null while there is none. */
export function lightshipOfTest(
  found: ReductionOutput['lightship'] | undefined,
): LightshipInput | null {
  if (found == null) return null;
  const figure = ({ value, standardUncertainty, degreesOfFreedom }: (typeof found)['mass']) => ({
    value,
    standardUncertainty,
    ...(degreesOfFreedom === null ? {} : { degreesOfFreedom }),
  });
  return {
    mass: figure(found.mass),
    lcg: figure(found.lcg),
    tcg: figure(found.tcg),
    vcg: figure(found.vcg),
    source: found.provisional ? 'this test, provisional' : 'this test',
  };
}
