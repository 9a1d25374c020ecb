import type { SessionState } from '#core/session/session.ts';
import { capital, duration } from '../show/figure.ts';

/** One thing that was not used, with what it was seen by. */
export interface NotUsedTold {
  readonly key: string;
  readonly wall: string;
  readonly title: string;
  readonly evidence: string;
}

/** Disturbances and voided readings, newest first. */
export function notUsedTold(session: SessionState): NotUsedTold[] {
  const labels = new Map(session.mountings.map((m) => [m.instrument, m.label]));
  const told: (NotUsedTold & { line: number })[] = [];
  for (const { written, disturbance } of session.disturbances) {
    const kind = capital(disturbance.kind);
    const who =
      disturbance.instruments === null
        ? 'all instruments'
        : `${disturbance.instruments.map((name) => labels.get(name) ?? name).join(', ')} only`;
    told.push({
      key: `disturbance-${written.line}`,
      line: written.line,
      wall: written.wall,
      title: `${kind}, ${duration(disturbance.toS - disturbance.fromS)} not used`,
      evidence: disturbance.evidence === '' ? who : `${who}; ${disturbance.evidence}`,
    });
  }
  for (const state of session.states) {
    for (const voided of state.voided) {
      told.push({
        key: `voided-${voided.written.line}`,
        line: voided.voided.line,
        wall: voided.voided.wall,
        title: `Reading ${state.state} voided by ${voided.voided.author}`,
        evidence: voided.reason,
      });
    }
  }
  return told.sort((a, b) => b.line - a.line);
}
