import { heading, note, paragraph } from './blocks.ts';
import type { Block } from './document.ts';
import { figureTraces, tracesSize } from './figure-traces.ts';
import type { ReportedDay } from './reported-day.ts';

const MM_PER_POINT = 25.4 / 72;

/** Appendix: the heel in the window of each accepted reading, instrument by instrument. */
export function partTraces({ session, traces }: ReportedDay): Block[] {
  const labelOf = (instrument: string) =>
    session.mountings.find((one) => one.instrument === instrument)?.label ?? instrument;
  const states = [...new Set(traces.map(({ state }) => state))];
  return [
    { kind: 'page' },
    heading(1, 'Appendix: traces of the accepted readings'),
    states.length === 0
      ? paragraph('The record holds no samples of an accepted reading.')
      : note(
          'Heel in degrees, starboard down positive, ten values a second as the estimator was given them: counts converted by certificate and mounting, smoothed without delay. One scale for all instruments of a state. Every count stands in the record.',
        ),
    ...states.map((state): Block => {
      const own = traces
        .filter((trace) => trace.state === state)
        .map((trace) => ({ ...trace, label: labelOf(trace.instrument) }));
      const { width, height } = tracesSize(own.length);
      return {
        kind: 'figure',
        svg: figureTraces(own),
        widthMm: width * MM_PER_POINT,
        heightMm: height * MM_PER_POINT,
        caption: `State ${state}`,
        words: `Heel by ${own.map(({ label }) => label).join(', ')} in the window of the reading of state ${state}.`,
      };
    }),
  ];
}
