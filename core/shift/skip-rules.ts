/**
 * Which of the eight standard movements may be left out. Two rules of the IS Code (8.4.1.2), each
 * off until it is switched on, for the authority decides; and each only on a plot without trouble.
 */
export interface SkipRules {
  /** Movement 8, the recheck of the zero, where the plot is straight after number 7. */
  readonly recheckAfterSeven: boolean;
  /** The second zero check, where the plot is straight after the first zero and six movements. */
  readonly completeAfterSix: boolean;
}

export const NO_SKIPPING: SkipRules = { recheckAfterSeven: false, completeAfterSix: false };

export type MayOmit =
  | 'not-yet'
  | 'not-straight'
  | 'not-allowed'
  | 'movement-eight'
  | 'all-that-is-left';

/** May the test end after so many movements? `straight`: no trouble is seen in the plot. */
export function mayOmitRest(
  rules: SkipRules,
  movements: number,
  zeroRead: boolean,
  straight: boolean,
): MayOmit {
  if (movements < 6 || movements >= 8) return 'not-yet';
  if (!straight) return 'not-straight';
  if (movements === 7 && rules.recheckAfterSeven) return 'movement-eight';
  if (movements === 6 && zeroRead && rules.completeAfterSix) return 'all-that-is-left';
  return 'not-allowed';
}

/** The fewest movements a plan may have under the rules that are on: IS Code 8.4.1.2. */
export function fewestMovements(rules: SkipRules): 6 | 7 | 8 {
  if (rules.completeAfterSix) return 6;
  return rules.recheckAfterSeven ? 7 : 8;
}
