import { Fault } from '../fault/fault.ts';
import { checkFinite } from '../quantity/check.ts';

/** A place aboard in ship axes: x forward of the after perpendicular, y to starboard, z up. */
export interface PlaceAboard {
  readonly xM: number;
  readonly yM: number;
  readonly zM: number;
}

export interface WeightAboard {
  readonly weight: string;
  readonly massT: number;
  /** Where it stands before the first shift. */
  readonly at: PlaceAboard;
}

export interface MoveOfWeight {
  readonly weight: string;
  readonly from: PlaceAboard;
  readonly to: PlaceAboard;
}

/** Moment of everything moved since the first state, and the way each weight has come. */
export interface MomentOfState {
  /** Starboard positive. */
  readonly heelingMomentTM: number;
  /** Upward positive. */
  readonly verticalMomentTM: number;
  /** By weight, in the order of the weights: to starboard and up, m. */
  readonly moved: readonly { readonly yM: number; readonly zM: number }[];
}

/** Places are the same when no coordinate differs by more: far below any tape. */
const SAME_PLACE_M = 1e-6;

/**
 * Moments of the states that one list of moves after the other leads to. The first entry is what
 * led to the first state, normally nothing. A move of an unknown weight, or from where the weight
 * does not stand, is a fault.
 */
export function momentsOfMoves(
  weights: readonly WeightAboard[],
  movesByState: readonly (readonly MoveOfWeight[])[],
): MomentOfState[] {
  const places = new Map(weights.map(({ weight, at }) => [weight, at]));
  return movesByState.map((moves, state) => {
    for (const move of moves) {
      const stands = places.get(move.weight);
      if (stands === undefined) {
        throw new Fault('input-contradiction', `state ${state}`, `no weight ${move.weight}`);
      }
      if (!samePlace(stands, move.from)) {
        throw new Fault(
          'input-contradiction',
          `state ${state}, weight ${move.weight}`,
          `moved from y ${move.from.yM} z ${move.from.zM}, but stands at y ${stands.yM} z ${stands.zM}`,
        );
      }
      places.set(move.weight, move.to);
    }
    return momentOfPlaces(weights, places);
  });
}

/** Moment of the weights where they stand now against where they stood before the first shift. */
export function momentOfPlaces(
  weights: readonly WeightAboard[],
  places: ReadonlyMap<string, PlaceAboard>,
): MomentOfState {
  const moved = weights.map(({ weight, at }) => {
    const now = places.get(weight) ?? at;
    return {
      yM: checkFinite(now.yM - at.yM, `${weight} y`),
      zM: checkFinite(now.zM - at.zM, `${weight} z`),
    };
  });
  const sum = (along: (way: { yM: number; zM: number }) => number) =>
    moved.reduce((total, way, k) => total + weights[k]!.massT * along(way), 0);
  return {
    heelingMomentTM: sum((way) => way.yM),
    verticalMomentTM: sum((way) => way.zM),
    moved,
  };
}

/** The same place aboard: no tape tells them apart. */
export function samePlace(left: PlaceAboard, right: PlaceAboard): boolean {
  const off = Math.max(
    Math.abs(left.xM - right.xM),
    Math.abs(left.yM - right.yM),
    Math.abs(left.zM - right.zM),
  );
  return off <= SAME_PLACE_M;
}
