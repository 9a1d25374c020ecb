import { z } from 'zod';
import { checkTankShape, rectangularTank, type TankShape } from './tank-liquid.ts';

const metres = z.number();
const corner = z.strictObject({ yM: metres, zM: metres });
const section = z.strictObject({ xM: metres, outline: z.array(corner).min(3).max(200) });

/** The inside of a tank or space, in ship axes: a box, or outlines at places of the length. */
export const tankShapeInput = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('rectangular'),
    fromXM: metres,
    toXM: metres,
    fromYM: metres,
    toYM: metres,
    fromZM: metres,
    toZM: metres,
  }),
  z.strictObject({ kind: z.literal('sections'), sections: z.array(section).min(2).max(60) }),
]);
export type TankShapeInput = z.infer<typeof tankShapeInput>;

/** Throws `input-range`, `input-contradiction` for a shape that holds nothing. */
export function tankShapeFrom(input: TankShapeInput): TankShape {
  if (input.kind === 'rectangular') return rectangularTank(input);
  const shape = { sections: input.sections };
  checkTankShape(shape);
  return shape;
}
