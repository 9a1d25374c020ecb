import type { Place } from '#core/record/line.ts';
import { CARRY_S, type Carry, carriedPlace, landedS, landingBumpTM } from './carrying.ts';
import type { Reality } from './marram.ts';
import { GRAVITY_M_S2, type RollLoad } from './vessel.ts';

/** A day has fewer; more is a mistake of the caller. */
const MOST_ORDERS = 10_000;

/** One crane: takes one weight at a time, in the order asked. */
export class Crane {
  readonly #marks: ReadonlyMap<string, Place>;
  readonly #reality: Reality;
  readonly #carries: ReadonlyMap<string, Carry[]>;
  readonly #orders: { atS: number; state: number; doneS: number }[] = [];
  #freeS = 0;

  constructor(marks: ReadonlyMap<string, Place>, reality: Reality) {
    this.#marks = marks;
    this.#reality = reality;
    this.#carries = new Map([...marks.keys()].map((weight) => [weight, []]));
  }

  /** From this time on, bring each weight to the place asked that is not asked for there already. */
  order(
    atS: number,
    state: number,
    places: readonly { weight: string; xM: number; yM: number; zM: number }[],
  ): void {
    if (this.#orders.length >= MOST_ORDERS) throw new RangeError('too many orders to the crane');
    let doneS = atS;
    for (const { weight, xM, yM, zM } of places) {
      const carries = this.#carries.get(weight);
      const mark = this.#marks.get(weight);
      if (carries === undefined || mark === undefined) {
        throw new RangeError(`there is no weight ${weight} aboard`);
      }
      const from = carries.at(-1)?.to ?? mark;
      if (from.xM !== xM || from.yM !== yM || from.zM !== zM) {
        const startS = Math.max(atS, this.#freeS);
        carries.push({ weight, startS, from, to: { xM, yM, zM } });
        this.#freeS = startS + CARRY_S;
      }
      const last = carries.at(-1);
      if (last !== undefined) doneS = Math.max(doneS, landedS(last));
    }
    this.#orders.push({ atS, state, doneS });
  }

  /** Moments of the weights against the reference state, and the bumps of landings. */
  load(timeS: number): RollLoad {
    let transverseTM = 0;
    let verticalTM = 0;
    let outsideTM = 0;
    for (const [weight, mark] of this.#marks) {
      const begun = this.#carries.get(weight)?.findLast((carry) => carry.startS <= timeS);
      if (begun === undefined) continue;
      const massT = this.#reality.massT[weight];
      if (massT === undefined) throw new RangeError(`nobody weighed ${weight}`);
      const really = { ...begun, from: this.#really(begun.from), to: this.#really(begun.to) };
      const place = carriedPlace(really, timeS);
      transverseTM += massT * (place.yM - this.#reality.realYM(mark.yM));
      verticalTM += massT * (place.zM - mark.zM);
      outsideTM += landingBumpTM(really, massT, timeS, GRAVITY_M_S2);
    }
    return { transverseTM, verticalTM, outsideTM };
  }

  /** Weights asked for and not yet down at this time. */
  carrying(timeS: number): string[] {
    const last = this.#orders.findLast((order) => order.atS <= timeS);
    if (last === undefined || last.doneS <= timeS) return [];
    return [...this.#carries]
      .filter(([, carries]) => carries.some((carry) => landedS(carry) > timeS))
      .map(([weight]) => weight);
  }

  /** Last state asked for whose weights are all down. */
  settledState(timeS: number): number {
    return this.#orders.findLast((order) => order.doneS <= timeS)?.state ?? 0;
  }

  #really(place: Place): Place {
    return { ...place, yM: this.#reality.realYM(place.yM) };
  }
}
