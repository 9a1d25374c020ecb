import type { Line } from '../record/line.ts';
import type { SessionState } from './session.ts';
import { writtenOf } from './written.ts';

/** One a matter and one a station are expected; a hostile record may name any number of stations. */
export const MOST_LAPTOP_NOTICES = 40;

/** What is not well after one more line: of each matter (of each station's link) the newest counts. */
export function laptopAfter(
  notices: SessionState['laptop'],
  line: Extract<Line, { kind: 'laptop-state' }>,
): SessionState['laptop'] {
  const { matter, station, severity } = line.body;
  const others = notices.filter(
    ({ state }) => state.matter !== matter || state.station !== station,
  );
  if (severity === 'well') return others;
  return [
    ...others.slice(-(MOST_LAPTOP_NOTICES - 1)),
    { written: writtenOf(line), state: line.body },
  ];
}
