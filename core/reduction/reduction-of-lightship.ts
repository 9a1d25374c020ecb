import { rightingFrom } from '../flotation/righting.ts';
import type { Advice } from '../quantity/advice.ts';
import { lightshipFrom } from '../survey/lightship.ts';
import type { SurveyItem } from '../survey/survey-input.ts';
import { liquidAtRest } from '../survey/tank-liquid.ts';
import { asInclined } from './as-inclined.ts';
import type { Answer } from './budget.ts';
import type { ExactAnswer } from './exact.ts';
import { liquidsLeverM } from './liquids.ts';
import type { ReductionOutput } from './reduction-output.ts';
import { figure } from './reduction-parts.ts';
import type { TestFloat } from './test-float.ts';
import type { TestInput } from './test-input.ts';

export interface LightshipFound {
  readonly out: ReductionOutput['lightship'];
  readonly advice: readonly Advice[];
}

/**
 * The lightship of a test with a survey. KG solid is that of the exact equation; where only a
 * table of hydrostatics is known, the upright free surface is taken off the headline's own KG.
 */
export function lightshipOf(
  test: TestInput,
  float: TestFloat | null,
  head: Answer,
  exact: ExactAnswer | null,
): LightshipFound {
  if (test.survey === undefined || float === null) return { out: null, advice: [] };
  const { afloat, fit, liquids } = float;
  const answer = exact?.answer ?? head;
  const kg = answer.kg!;
  const mass = afloat.displacementT.value;
  const lever = liquidsLeverM(liquids, mass, fit.surface.trimSlope);
  const freeSurfaceM = exact === null ? -rightingFrom(() => 0, lever).metacentreM : 0;
  const kgSolidM = kg.value - freeSurfaceM;
  const { moments, causes } = asInclined(afloat, fit.surface, answer, kgSolidM);
  const items = [...test.survey.items, ...tankItems(test, float)];
  const found = lightshipFrom(moments, causes, { ...test.survey, items });
  return {
    out: {
      mass: figure(found.massT, 't'),
      lcg: figure(found.lcgM, 'm'),
      tcg: figure(found.tcgM, 'm'),
      vcg: figure(found.vcgM, 'm'),
      asInclined: {
        mass: moments.massT,
        lcg: moments.xTM / moments.massT,
        tcg: moments.yTM / moments.massT,
        vcg: kgSolidM,
      },
      provisional: found.provisional,
      deducted: found.deductedT,
      added: found.addedT,
      toBeFitted: found.toBeFittedT,
      budget: found.budget.map((row) => ({
        cause: row.cause,
        mass: row.massT,
        lcg: row.lcgM,
        tcg: row.tcgM,
        vcg: row.vcgM,
      })),
    },
    advice: found.advice,
  };
}

/** What is in the tanks, as it lies upright, comes off unless the sheet leaves it in. */
function tankItems(test: TestInput, { liquids, fit }: TestFloat): SurveyItem[] {
  return liquids.flatMap((liquid, k): SurveyItem[] => {
    const written = test.liquids!.tanks[k]!;
    if (written.partOfLightship === true || liquid.volumeM3 === 0) return [];
    const upright = { heelSlope: 0, trimSlope: fit.surface.trimSlope };
    const { xM, yM, zM } = liquidAtRest(liquid.shape, liquid.volumeM3, upright);
    return [
      {
        item: `liquid in ${liquid.tank}`,
        kind: 'liquid',
        massT: liquid.volumeM3 * liquid.densityTM3,
        massUncertaintyT: written.massUncertaintyT ?? 0,
        at: { xM, yM, zM },
        placeUncertaintyM: 0,
        photographLine: null,
      },
    ];
  });
}
