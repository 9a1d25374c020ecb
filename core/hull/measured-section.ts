/** A point taped off the hull ashore: y to starboard, negative to port, over the hull's own baseline. */
export interface MeasuredPoint {
  readonly xM: number;
  readonly yM: number;
  readonly zM: number;
  readonly where: string;
}

/** One side of a section seen from the pole: angle up from straight down, distance. */
export interface PolarPoint {
  readonly angleRad: number;
  readonly radiusM: number;
  readonly point: MeasuredPoint;
}

export interface MeasuredSection {
  readonly xM: number;
  readonly starboard: readonly PolarPoint[];
  readonly port: readonly PolarPoint[];
  /** How far to starboard the centre plane of the tape lay off that of the hull; null from one side. */
  readonly centreOffM: number | null;
  /** Root mean square of the two halves' differences once that is taken out; null from one side. */
  readonly halvesDifferM: number | null;
}

/** Radius of a side at an angle, straight between its points; null beyond them. */
export function radiusAt(side: readonly PolarPoint[], angleRad: number): number | null {
  const next = side.findIndex((one, i) => i > 0 && angleRad <= one.angleRad);
  if (next < 0 || angleRad < side[0]!.angleRad) return null;
  const [a, b] = [side[next - 1]!, side[next]!];
  if (a.angleRad === b.angleRad) return b.radiusM;
  // Straight in the plane of the section, not in angle.
  const span = Math.sin(b.angleRad - a.angleRad);
  const share =
    a.radiusM * Math.sin(angleRad - a.angleRad) + b.radiusM * Math.sin(b.angleRad - angleRad);
  return (a.radiusM * b.radiusM * span) / share;
}
