/**
 * In what an instrument's scale factor acts: a pendulum's length and a tube's span scale the
 * tangent, an inclinometer's sensitivity the sine, a graduated arc the angle itself.
 */
export type ScaleSpace = 'tangent' | 'sine' | 'angle';

/** The tangent an instrument would have shown, were its scale larger by this factor. */
export function tangentScaled(tangent: number, factor: number, space: ScaleSpace): number {
  if (space === 'tangent') return tangent * factor;
  const angleRad = Math.atan(tangent);
  if (space === 'angle') return Math.tan(angleRad * factor);
  return Math.tan(Math.asin(Math.sin(angleRad) * factor));
}
