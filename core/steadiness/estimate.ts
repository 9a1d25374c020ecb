/** In one word, what a person watching a pendulum would say. `silent`: no samples arrive. */
export type Verdict = 'steady' | 'settling' | 'disturbed' | 'silent';

/** The mean heel of the present state as estimated now. Heel positive starboard down, degrees. */
export interface HeelEstimate {
  readonly heelDeg: number;
  /** One standard error; respects the correlation of a rolling vessel. */
  readonly standardErrorDeg: number;
  readonly degreesOfFreedom: number;
  /** Half the width of the 95 % interval by Student's t. */
  readonly halfWidth95Deg: number;
}
