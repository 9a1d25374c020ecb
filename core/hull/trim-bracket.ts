/** Trims between which she comes to rest, learned from levers seen: positive ones trim her further. */
export class TrimBracket {
  #lowRad = Number.NEGATIVE_INFINITY;
  #highRad = Number.POSITIVE_INFINITY;

  see(trimRad: number, lever: number): void {
    if (lever > 0) this.#lowRad = Math.max(this.#lowRad, trimRad);
    else this.#highRad = Math.min(this.#highRad, trimRad);
  }

  /** Infinite while one side is not known; negative where the levers seen contradict each other. */
  get widthRad(): number {
    return this.#highRad - this.#lowRad;
  }

  get middleRad(): number {
    return (this.#lowRad + this.#highRad) / 2;
  }
}
