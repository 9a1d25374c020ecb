/**
 * What leaves the line of tangent on moment perfectly straight and still makes GM or KG wrong.
 * Each needs evidence from outside the plot.
 */
export const CANNOT_SHOW = {
  'common-mass': 'all weights wrong by the same share: one balance, wet or soaked weights',
  'common-distance': 'all distances wrong by the same share: one tape, one way of measuring',
  'common-angle': 'all instruments wrong by the same share: one calibration, one drawing',
  'full-width-liquid': 'liquid that keeps its full width over the whole heel, in a tank or a bilge',
  restraint: 'lines, fenders or ground that hold her like a spring, alike on both sides',
  displacement: 'the displacement: freeboards, water density, hull lines',
  km: 'the height of the metacentre: hull lines, trim, hog or sag',
} as const;

export type CannotShow = keyof typeof CANNOT_SHOW;

/** The whole list with the evidence taken instead; 'none' stands where there is none. */
export function cannotShowList(
  evidence: Partial<Record<CannotShow, string>>,
): { what: string; evidence: string }[] {
  return (Object.keys(CANNOT_SHOW) as CannotShow[]).map((key) => ({
    what: CANNOT_SHOW[key],
    evidence: evidence[key] ?? 'none',
  }));
}
