/** Angles: radians inside formulas, degrees at the edges. Heel is positive starboard down. */
export const RADIANS_PER_DEGREE = Math.PI / 180;

export function radiansFromDegrees(angleDeg: number): number {
  return angleDeg * RADIANS_PER_DEGREE;
}

export function degreesFromRadians(angleRad: number): number {
  return angleRad / RADIANS_PER_DEGREE;
}
