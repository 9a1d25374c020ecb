import { DAY_CHECKS, type Occasion } from '../record/entry-line.ts';
import type { SessionState } from './session.ts';
import { entriesOf } from './survey-state.ts';

/** Checks of berth and crew that are not answered, or answered with no. */
export function checksOpen({ survey }: Pick<SessionState, 'survey'>, occasion: Occasion): number {
  const hold = entriesOf(survey, 'check', occasion).filter(({ value }) => value.holds).length;
  return DAY_CHECKS.length - hold;
}
