import { z } from 'zod';
import type { MassCause } from '../survey/lightship.ts';
import { type MassMoments, momentsAt, NO_MASS } from '../survey/mass-moments.ts';

const standardUncertainty = z.number().nonnegative();
const degreesOfFreedom = z.number().positive().optional().describe('left out: not limited');

const figure = (value: z.ZodNumber) =>
  z.strictObject({ value, standardUncertainty: standardUncertainty.optional(), degreesOfFreedom });

const metres = z.number().min(-450).max(450);

/** The lightship of a test or of an older booklet. An uncertainty that is left out is not known. */
export const lightshipInput = z.strictObject({
  mass: figure(z.number().positive().max(100_000)).describe('t'),
  lcg: figure(metres).describe('m forward of the after perpendicular'),
  tcg: figure(metres).describe('m to starboard'),
  vcg: figure(metres).describe('m over the baseline'),
  source: z.string().min(1).max(200).optional().describe('which test, which day'),
});
export type LightshipInput = z.infer<typeof lightshipInput>;

export function lightshipMoments({ mass, lcg, tcg, vcg }: LightshipInput): MassMoments {
  return momentsAt(mass.value, { xM: lcg.value, yM: tcg.value, zM: vcg.value });
}

/**
 * Each figure's error as it moves mass and moments: an error of mass lies at the lightship's centre.
 * Null where mass or VCG comes without its uncertainty: nothing is then known of any margin.
 */
export function lightshipCauses(input: LightshipInput): readonly MassCause[] | null {
  const { mass, lcg, tcg, vcg } = input;
  if (mass.standardUncertainty === undefined || vcg.standardUncertainty === undefined) return null;
  const share = mass.standardUncertainty / mass.value;
  const whole = lightshipMoments(input);
  const shift = (
    cause: string,
    along: 'xTM' | 'yTM' | 'zTM',
    of: LightshipInput['lcg'],
  ): MassCause => ({
    ...NO_MASS,
    cause,
    degreesOfFreedom: of.degreesOfFreedom ?? Number.POSITIVE_INFINITY,
    [along]: mass.value * (of.standardUncertainty ?? 0),
  });
  const causes: MassCause[] = [
    {
      cause: 'mass of the lightship',
      degreesOfFreedom: mass.degreesOfFreedom ?? Number.POSITIVE_INFINITY,
      massT: whole.massT * share,
      xTM: whole.xTM * share,
      yTM: whole.yTM * share,
      zTM: whole.zTM * share,
    },
    shift('LCG of the lightship', 'xTM', lcg),
    shift('TCG of the lightship', 'yTM', tcg),
    shift('VCG of the lightship', 'zTM', vcg),
  ];
  return causes.filter(({ massT, xTM, yTM, zTM }) => [massT, xTM, yTM, zTM].some((m) => m !== 0));
}
