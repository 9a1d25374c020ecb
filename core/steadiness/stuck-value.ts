/** So long one and the same value is no measurement. */
const STUCK_AFTER_S = 2.5;
/** Smoothing of equal counts leaves this much, relative. */
const SAME = 1e-9;

/**
 * Finds an instrument that repeats itself: however still the vessel, noise moves a working sensor's
 * last digit. A value repeated for 2.5 s is stuck since it first came.
 */
export class StuckValue {
  private value: number | null = null;
  private sinceS = 0;

  /** Returns since when the value is stuck, or null. */
  push(atS: number, heelDeg: number | null): number | null {
    if (heelDeg === null) {
      this.value = null;
      return null;
    }
    const same =
      this.value !== null &&
      Math.abs(heelDeg - this.value) <= SAME * Math.max(1, Math.abs(heelDeg));
    if (!same) {
      this.value = heelDeg;
      this.sinceS = atS;
      return null;
    }
    return atS - this.sinceS >= STUCK_AFTER_S ? this.sinceS : null;
  }
}
