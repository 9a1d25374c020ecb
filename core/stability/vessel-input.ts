import { z } from 'zod';
import { LENGTH_MEASURES, SERVICES, type VesselParticulars, WATERS } from './evidence.ts';

const metres = z.number().positive().max(450);
const lengths = Object.fromEntries(LENGTH_MEASURES.map((one) => [one, metres.optional()])) as {
  [K in (typeof LENGTH_MEASURES)[number]]: z.ZodOptional<typeof metres>;
};

/** What rule sets go by. What is left out is not known: a clause that needs it is not judged. */
export const vesselInput = z.strictObject({
  lengthsM: z.strictObject(lengths),
  services: z.array(z.enum(SERVICES)).min(1).max(SERVICES.length).optional(),
  waters: z.enum(WATERS).optional(),
  builtOn: z.iso.date().optional(),
  hulls: z.enum(['mono', 'multi']).optional(),
  decked: z.boolean().optional(),
  beamM: metres.optional().describe('greatest moulded'),
  depthM: metres.optional().describe('amidships, to the upper deck at side'),
  superstructureLengthM: z.number().nonnegative().max(450).optional(),
  superstructureHeightM: metres.optional(),
  sheerAtLeastStandard: z.boolean().optional(),
  keelAreaM2: z.number().nonnegative().max(1000).optional(),
  bilge: z.enum(['round', 'sharp']).optional(),
  assignedFreeboardM: z.number().nonnegative().max(50).optional(),
});
type VesselInput = z.infer<typeof vesselInput>;

export function vesselFrom(name: string, input: VesselInput): VesselParticulars {
  const lengthsM = Object.fromEntries(
    Object.entries(input.lengthsM).filter(([, lengthM]) => lengthM !== undefined),
  );
  return {
    name,
    lengthsM,
    services: input.services ?? null,
    waters: input.waters ?? null,
    builtOn: input.builtOn ?? null,
    hulls: input.hulls ?? null,
    decked: input.decked ?? null,
    beamM: input.beamM ?? null,
    depthM: input.depthM ?? null,
    superstructureLengthM: input.superstructureLengthM ?? null,
    superstructureHeightM: input.superstructureHeightM ?? null,
    sheerAtLeastStandard: input.sheerAtLeastStandard ?? null,
    keelAreaM2: input.keelAreaM2 ?? null,
    bilge: input.bilge ?? null,
    assignedFreeboardM: input.assignedFreeboardM ?? null,
  };
}
