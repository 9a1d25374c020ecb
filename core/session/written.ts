import type { Line } from '../record/line.ts';
import type { Written } from './session.ts';

/** Who wrote a line and when, as the state carries it. */
export function writtenOf(line: Line): Written {
  return {
    line: line.n,
    wall: line.wall,
    receiverS: line.receiverS,
    author: line.author,
    role: line.role,
  };
}
