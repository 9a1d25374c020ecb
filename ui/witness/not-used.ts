import type { Overruled, SessionState } from '#core/session/session.ts';
import { capital, duration } from '../show/figure.ts';

/** One thing that was not used, with what it was seen by. */
export interface NotUsedTold {
  readonly key: string;
  readonly wall: string;
  readonly title: string;
  readonly evidence: string;
  /** Line to overrule it by. */
  readonly line: number;
  /** Why it counts after all and by whom; null: it does not. */
  readonly overruled: string | null;
}

/** Disturbances and voided readings, newest first. */
export function notUsedTold(session: SessionState): NotUsedTold[] {
  const labels = new Map(session.mountings.map((m) => [m.instrument, m.label]));
  const told: NotUsedTold[] = [];
  for (const { written, disturbance, overruled } of session.disturbances) {
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
      overruled: overruledWords(overruled),
    });
  }
  for (const state of session.states) {
    for (const voided of state.voided) {
      told.push({
        key: `voided-${voided.voided.line}`,
        line: voided.voided.line,
        wall: voided.voided.wall,
        title: `Reading ${state.state} voided by ${voided.voided.author}`,
        evidence: voided.reason,
        overruled: null,
      });
    }
    for (const back of state.putBack) {
      told.push({
        key: `voided-${back.voided.line}`,
        line: back.voided.line,
        wall: back.voided.wall,
        title: `Reading ${state.state} voided by ${back.voided.author}`,
        evidence: back.reason,
        overruled: overruledWords(back.putBack),
      });
    }
  }
  return told.sort((a, b) => b.line - a.line);
}

function overruledWords(overruled: Overruled | null): string | null {
  return overruled === null ? null : `${overruled.reason} (${overruled.written.author})`;
}
