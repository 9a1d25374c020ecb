/** A reading's mark on the batten, with the numbers of all states that share the place. */
export interface Mark {
  readonly heelDeg: number;
  readonly numbers: readonly number[];
}

/** Repeated states share one mark: those nearer to each other than `togetherDeg`. */
export function marksOf(
  readings: readonly { state: number; heelDeg: number }[],
  togetherDeg: number,
): Mark[] {
  const marks: { heelDeg: number; numbers: number[] }[] = [];
  for (const { state, heelDeg } of readings) {
    const near = marks.find((mark) => Math.abs(mark.heelDeg - heelDeg) < togetherDeg);
    if (near === undefined) marks.push({ heelDeg, numbers: [state] });
    else near.numbers.push(state);
  }
  return marks;
}

/** The reach of the scale in whole degrees, the same to both sides, so that nothing stands off it or under its words. */
export function reachDeg(heels: readonly number[]): number {
  const most = Math.max(1, ...heels.map((heelDeg) => Math.abs(heelDeg)));
  return Math.ceil(most * 1.35);
}
