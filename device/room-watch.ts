import type { Fault } from '#core/fault/fault.ts';

/** Room that comes and goes, as on a full disk that is just keeping up, is one matter and not many. */
const ROOM_AGAIN_AFTER_S = 5;

/** Tells when samples begin to find no room, at once, and when they have had some for a while. */
export class RoomWatch {
  #told: Fault | null = null;
  #roomSinceS: number | null = null;

  /** Why samples find no room, as it was last told; null: they do. */
  get told(): Fault | null {
    return this.#told;
  }

  /** @param refuses why samples find no room now, or null. True when `told` has changed. */
  look(refuses: Fault | null, nowS: number): boolean {
    if (refuses !== null) {
      this.#roomSinceS = null;
      const changed = this.#told?.code !== refuses.code;
      if (changed) this.#told = refuses;
      return changed;
    }
    if (this.#told === null) return false;
    this.#roomSinceS ??= nowS;
    if (nowS - this.#roomSinceS < ROOM_AGAIN_AFTER_S) return false;
    this.#told = null;
    return true;
  }
}
