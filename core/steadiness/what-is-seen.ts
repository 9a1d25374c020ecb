import type { Suspicion } from './judge.ts';
import type { Track } from './track.ts';

/** As a witness reads it off a trace. */
export const degreesInWords = (value: number) => `${value.toFixed(Math.abs(value) < 0.1 ? 3 : 2)}°`;

/** What the judge saw, in words a witness can check on the trace. */
export function whatIsSeen(track: Track, suspicion: Suspicion): string {
  const usual = degreesInWords(1.4 * (track.model?.rollDeg ?? 0));
  if (suspicion.kind === 'wake') {
    const swing = degreesInWords(track.recentRangeDeg(Math.max(suspicion.blocks, 12)));
    return `motion out of step with her own rolling (swings of ${swing} to either side, usual ${usual})`;
  }
  const off = track.offLevel();
  const lies = off === null ? 'heel lies' : `heel lies ${degreesInWords(off.offDeg)}`;
  return `${lies} off its mean, more than her rolling (usual swings ${usual} to either side) explains`;
}
