import type { ReportedDay } from './reported-day.ts';

/**
 * What has to stand on every page, most binding first: a day without a real reading, a test not
 * ended, a result that is not settled, a record not signed. Empty: nothing of it.
 */
export function reportMarks({ session, result }: ReportedDay): string[] {
  const marks: string[] = [];
  if (session.simulation !== null || (session.test !== null && session.test.mode !== 'test'))
    marks.push('Rehearsal: simulated vessel, no real reading');
  if (session.closed === null) marks.push('Draft: the test is not closed');
  const open = session.people.asks.filter(({ answers }) => answers.length === 0);
  if (result.gmFluidM === null) marks.push('Provisional: no result yet');
  else if (result.diagnosis?.troubleSeen === true)
    marks.push('Provisional: trouble is seen in the plot');
  else if (open.length > 0) marks.push('Provisional: what the witness asked is not answered');
  if (!isSigned(session)) marks.push('Unsigned');
  return marks;
}

/** Is the newest seal signed, by an architect among others? */
function isSigned({ people }: ReportedDay['session']): boolean {
  const seal = people.seals.at(-1);
  return seal?.signatures.some(({ written }) => written.role === 'architect') ?? false;
}
