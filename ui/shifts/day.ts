import type { Move } from '#core/record/line.ts';
import type { SessionState, ShiftState } from '#core/session/session.ts';
import { shiftsBegun } from '#core/session/shifts-begun.ts';
import { fixed } from '../show/figure.ts';

/** Where the day stands, in the words of the deck. Nothing here is measured or computed anew. */
export function presentState(session: SessionState): ShiftState | null {
  return session.states.at(-1) ?? null;
}

/** Readings the plan asks for: the zero, one after each shift, and one where a day was resumed. */
export function readingsPlanned(session: SessionState): number {
  if (session.test === null) return 0;
  const again = session.states.length - 1 - shiftsBegun(session.states).length;
  return session.test.plan.length + 1 + Math.max(0, again);
}

export function readingsTaken(session: SessionState): number {
  return session.states.filter((state) => state.reading !== null).length;
}

/** The moves of the shift that follows, from where the weights stand now; null at the plan's end. */
export function nextMoves(session: SessionState): readonly Move[] | null {
  const present = presentState(session);
  if (present === null || session.test === null) return null;
  if (session.awaits === 'landing') return present.moves;
  return plannedMoves(session, shiftsBegun(session.states).length);
}

/** Moves of the plan's shift number `index` (0 is the first), weights standing as they do now. */
export function plannedMoves(session: SessionState, index: number): readonly Move[] | null {
  const shift = session.test?.plan[index];
  if (shift === undefined) return null;
  return shift.moves.map((move) => {
    const from = session.weightsAt[move.weight] ?? move.to;
    return { weight: move.weight, from, to: move.to };
  });
}

/** "D to port", "A and B to starboard", "A to port, B forward". */
export function movesInWords(moves: readonly Move[]): string {
  const byWay = new Map<string, string[]>();
  for (const move of moves) {
    const way = wayOf(move);
    byWay.set(way, [...(byWay.get(way) ?? []), move.weight]);
  }
  return [...byWay].map(([way, weights]) => `${list(weights)} ${way}`).join(', ');
}

/** "4.20 m" when every weight goes equally far across, else nothing: the deck plan says the rest. */
export function distanceInWords(moves: readonly Move[]): string | null {
  const [first] = moves;
  if (first === undefined) return null;
  const across = Math.abs(first.to.yM - first.from.yM);
  const equal = moves.every(
    (move) => Math.abs(Math.abs(move.to.yM - move.from.yM) - across) < 0.005,
  );
  return equal && across > 0 ? `${fixed(across, 2)}\u00a0m` : null;
}

function wayOf(move: Move): string {
  const across = move.to.yM - move.from.yM;
  const along = move.to.xM - move.from.xM;
  if (Math.abs(across) >= Math.abs(along) && across !== 0) {
    return across > 0 ? 'to starboard' : 'to port';
  }
  if (along !== 0) return along > 0 ? 'forward' : 'aft';
  return move.to.zM > move.from.zM ? 'up' : 'down';
}

export function list(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** The heading over the figure: what was done last, or what is going on. */
export function headline(session: SessionState): string {
  const present = presentState(session);
  if (session.test === null || present === null) return 'No test is open';
  if (session.closed !== null) return 'The test is closed';
  if (present.state === 0) return 'Reading 0: all weights at their marks';
  const moved = movesInWords(present.moves);
  const far = distanceInWords(present.moves);
  const tail = far === null ? '' : `, ${far}`;
  if (session.awaits === 'landing') return `Shift ${present.state}: ${moved}${tail}, under way`;
  const weights = present.moves.length === 1 ? present.moves[0]!.weight : null;
  const said = weights === null ? moved : `${weights} moved ${moved.slice(weights.length + 1)}`;
  return `Reading ${present.state}: ${said}${tail}`;
}

/** The line at the right of the heading: when the load came down on its mark, and who called it. */
export function sinceWhen(state: ShiftState): { words: string; wall: string; who: string } | null {
  if (state.landed !== null) {
    return { words: 'down', wall: state.landed.wall, who: state.landed.author };
  }
  if (state.begun !== null) {
    return { words: 'begun', wall: state.begun.wall, who: state.begun.author };
  }
  return null;
}

/** The one act the day waits for. */
export interface NextAct {
  readonly kind: 'take-reading' | 'begin-shift' | 'weight-landed' | 'resume-test' | 'see-result';
  readonly label: string;
}

export function nextAct(session: SessionState): NextAct | null {
  const present = presentState(session);
  if (present === null) return null;
  if (session.closed !== null) return { kind: 'see-result', label: 'See the result' };
  if (session.postponed !== null) return { kind: 'resume-test', label: 'Resume the test…' };
  switch (session.awaits) {
    case 'reading':
      return { kind: 'take-reading', label: `Take reading ${present.state}` };
    case 'landing':
      return { kind: 'weight-landed', label: 'Weight is down' };
    case 'shift':
      return {
        kind: 'begin-shift',
        label: `Begin shift ${shiftsBegun(session.states).length + 1}`,
      };
    case 'nothing':
      return { kind: 'see-result', label: 'See the result' };
    case 'test':
      return null;
  }
}
