import type { Place } from '#core/record/line.ts';
import { CARRY_S, type Carry, carriedPlace, landedS, landingBumpTM } from './carrying.ts';
import type { Reality } from './marram.ts';
import { GRAVITY_M_S2, type RollLoad } from './vessel.ts';

/** One crane: takes one weight at a time, in the order asked. */
export interface Crane {
  /** From this time on, bring each weight that is not asked to stand where it stands. */
  order(
    atS: number,
    state: number,
    places: readonly { weight: string; xM: number; yM: number; zM: number }[],
  ): void;
  /** Moments of the weights against the reference state, and the bump of one landing. */
  load(timeS: number): RollLoad;
  /** Weights asked for and not yet down at this time. */
  carrying(timeS: number): string[];
  /** Last state asked for whose weights are all down. */
  settledState(timeS: number): number;
}

/** A day has fewer; more is a mistake of the caller. */
const MOST_ORDERS = 10_000;

export function createCrane(marks: ReadonlyMap<string, Place>, reality: Reality): Crane {
  const carries = new Map<string, Carry[]>([...marks.keys()].map((weight) => [weight, []]));
  const orders: { atS: number; state: number; doneS: number }[] = [];
  let freeS = 0;

  const askedPlace = (weight: string): Place =>
    carries.get(weight)?.at(-1)?.to ?? (marks.get(weight) as Place);
  const real = (place: Place): Place => ({ ...place, yM: reality.realYM(place.yM) });

  const placeAt = (weight: string, mark: Place, timeS: number): Place => {
    const begun = carries.get(weight)?.findLast((carry) => carry.startS <= timeS);
    if (begun === undefined) return real(mark);
    return carriedPlace({ ...begun, from: real(begun.from), to: real(begun.to) }, timeS);
  };

  return {
    order(atS, state, places) {
      if (orders.length >= MOST_ORDERS) throw new RangeError('too many orders to the crane');
      let doneS = atS;
      for (const { weight, xM, yM, zM } of places) {
        const list = carries.get(weight);
        if (list === undefined) throw new RangeError(`there is no weight ${weight} aboard`);
        const from = askedPlace(weight);
        if (from.xM !== xM || from.yM !== yM || from.zM !== zM) {
          const startS = Math.max(atS, freeS);
          list.push({ weight, startS, from, to: { xM, yM, zM } });
          freeS = startS + CARRY_S;
        }
        const last = list.at(-1);
        if (last !== undefined) doneS = Math.max(doneS, landedS(last));
      }
      orders.push({ atS, state, doneS });
    },
    load(timeS) {
      let transverseTM = 0;
      let verticalTM = 0;
      let outsideTM = 0;
      for (const [weight, mark] of marks) {
        const massT = reality.massT[weight] as number;
        const place = placeAt(weight, mark, timeS);
        transverseTM += massT * (place.yM - reality.realYM(mark.yM));
        verticalTM += massT * (place.zM - mark.zM);
        const landed = carries.get(weight)?.findLast((carry) => landedS(carry) <= timeS);
        if (landed !== undefined) {
          outsideTM += landingBumpTM(
            { ...landed, to: real(landed.to) },
            massT,
            timeS,
            GRAVITY_M_S2,
          );
        }
      }
      return { transverseTM, verticalTM, outsideTM };
    },
    carrying(timeS) {
      const underWay: string[] = [];
      const last = orders.findLast((order) => order.atS <= timeS);
      if (last === undefined || last.doneS <= timeS) return underWay;
      for (const [weight, list] of carries) {
        if (list.some((carry) => landedS(carry) > timeS)) underWay.push(weight);
      }
      return underWay;
    },
    settledState(timeS) {
      return orders.findLast((order) => order.doneS <= timeS)?.state ?? 0;
    },
  };
}
