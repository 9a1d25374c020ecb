/** Changes of the value looked at before anything is said of their size. */
const CHANGES = 100;

/**
 * The step an instrument's values really move in, whatever it prints: the least change among a
 * hundred. Something that rolls passes slowly through its extremes, so that the least of a hundred
 * changes is small wherever the instrument can show it.
 */
export class SeenStep {
  #before: number | null = null;
  #least = Number.POSITIVE_INFINITY;
  #changes = 0;

  /** The next value, in any unit; the step in the same unit once it is known, null until then. */
  see(value: number): number | null {
    const change = this.#before === null ? 0 : Math.abs(value - this.#before);
    this.#before = value;
    if (change > 0) {
      this.#changes += 1;
      this.#least = Math.min(this.#least, change);
    }
    return this.#changes < CHANGES ? null : this.#least;
  }
}
