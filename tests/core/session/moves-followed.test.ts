import { describe, expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { foldLines } from '#core/session/fold.ts';
import { shiftAsWritten, withMovesFollowed } from '#core/session/moves-followed.ts';
import { fourStates } from '#tests/support/four-states.ts';
import { PLACE } from '#tests/support/record-lines.ts';

const session = foldLines(fourStates().record.lines.map((bytes) => readLine(bytes, 'test').line));

describe('moves followed through the day', () => {
  it('leave a day without corrections exactly as it was written', () => {
    expect(withMovesFollowed(session)).toEqual(session);
  });

  it('know what a shift rests on, and a move from where its weight does not stand', () => {
    const move = (fromM: number) => ({ weight: 'A', from: PLACE(fromM), to: PLACE(0) });
    const written = (fromM: number) =>
      shiftAsWritten(session, { moves: [move(fromM)], heelingMomentTM: -0.5 });
    // A from -2 to 0 is 0.5 t.m, B stands 4 m to port of its mark: -1 t.m.
    expect(written(-2)).toMatchObject({ follows: true, ofPlacesTM: -0.5 });
    expect(written(1)).toMatchObject({ follows: false });
  });

  it('leave a move that began elsewhere saying so', () => {
    const astray = {
      ...session,
      states: session.states.map((state) =>
        state.state !== 2 || state.asWritten === null
          ? state
          : {
              ...state,
              asWritten: {
                ...state.asWritten,
                follows: false,
                moves: [{ weight: 'A', from: PLACE(1), to: PLACE(-2) }],
              },
            },
      ),
    };
    expect(withMovesFollowed(astray).states[2]!.moves[0]!.from).toEqual(PLACE(1));
  });
});
