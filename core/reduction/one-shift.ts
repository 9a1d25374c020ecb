import { Fault } from '../fault/fault.ts';
import { checkFinite } from '../quantity/check.ts';

/**
 * Displacement times GM from one change of moment and the change of tangent it made. One shift
 * proves nothing about itself: no scatter, no zero; for comparison only.
 * Example: 100 tons moved 30 ft heel a ship of 9000 tons by 8 degrees: 3000 / tan 8 = 21346 ft ton,
 * GM 2.37 ft (Nicholls's Seamanship, p. 532).
 */
export function stiffnessOfOneShift(momentChange: number, tangentChange: number): number {
  checkFinite(momentChange, 'change of moment');
  checkFinite(tangentChange, 'change of tangent');
  if (tangentChange === 0) {
    throw new Fault('line-not-determined', 'change of tangent', 'the heel did not change');
  }
  return momentChange / tangentChange;
}
