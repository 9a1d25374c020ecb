import { checkFinite } from '../quantity/check.ts';
import type { LineBody, Move, Place, TestOpened } from '../record/line.ts';
import { momentOfPlaces, samePlace } from '../shift/moment.ts';
import type { SessionState, ShiftAsWritten } from './session.ts';

/** What the line of a shift rests on when it is written: where the weights stand and what they weigh. */
export function shiftAsWritten(
  session: SessionState,
  { moves, heelingMomentTM }: Pick<LineBody<'shift-begun'>, 'moves' | 'heelingMomentTM'>,
): ShiftAsWritten {
  const places = new Map(Object.entries(session.weightsAt));
  const follows = moves.every(({ weight, from }) => {
    const stands = places.get(weight);
    return stands !== undefined && samePlace(stands, from);
  });
  for (const move of moves) places.set(move.weight, move.to);
  return { moves, heelingMomentTM, ofPlacesTM: momentTM(session.test, places), follows };
}

/**
 * The session with every move begun where the one before it ended, and every moment moved by what
 * its places and masses were corrected by. With nothing corrected all is exactly as written; what
 * contradicted itself when it was written still does. Throws `input-not-finite` for a moment beyond
 * all numbers.
 */
export function withMovesFollowed(session: SessionState): SessionState {
  const { test } = session;
  if (test === null) return session;
  const places = new Map<string, Place>(test.weights.map(({ weight, at }) => [weight, at]));
  const landedAt: Record<string, Place> = Object.fromEntries(places);
  const states = session.states.map((state) => {
    const { asWritten } = state;
    if (asWritten === null) return state;
    const moves = state.moves.map((move, k) => followed(move, asWritten, k, places));
    for (const move of moves) {
      places.set(move.weight, move.to);
      if (state.landed !== null) landedAt[move.weight] = move.to;
    }
    const nowTM = momentTM(test, places);
    const { heelingMomentTM, ofPlacesTM } = asWritten;
    const isAsThen = nowTM === ofPlacesTM;
    const movedTM = isAsThen ? heelingMomentTM : heelingMomentTM + (nowTM - ofPlacesTM);
    return {
      ...state,
      moves,
      heelingMomentTM: checkFinite(movedTM, `moment of state ${state.state}`),
    };
  });
  return { ...session, states, weightsAt: landedAt };
}

function followed(
  move: Move,
  { moves, follows }: ShiftAsWritten,
  k: number,
  places: ReadonlyMap<string, Place>,
): Move {
  const written = moves[k]?.from ?? move.from;
  const stands = places.get(move.weight);
  if (!follows || stands === undefined || samePlace(written, stands))
    return { ...move, from: written };
  return { ...move, from: stands };
}

function momentTM(test: TestOpened | null, places: ReadonlyMap<string, Place>): number {
  return test === null ? 0 : momentOfPlaces(test.weights, places).heelingMomentTM;
}
