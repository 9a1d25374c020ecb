import { heelDegOfDifference } from '../part/counted.ts';
import { inclinometerPart } from '../part/inclinometer-parts.ts';
import { resolutionDeg } from '../part/resolution.ts';
import type { Reading } from '../record/reading-line.ts';
import type { SessionState } from './session.ts';

/** What lessens the worth of one instrument's reading. It stands, and this is said beside it. */
export interface ReadingFlag {
  readonly instrument: string;
  readonly label: string;
  readonly kind: 'warming-up' | 'temperature-moved' | 'coarse' | 'second-sensor';
  readonly words: string;
}

/** Electronics are left to warm up so long; common practice, no source. */
export const WARM_UP_S = 1800;
/** Its own warmth may move so far from that of its first reading. Our setting. */
export const MOST_TEMPERATURE_MOVE_K = 2;
/** One count coarser than this shows in a pendulum of 3 m read to half a millimetre. Our setting. */
export const COARSEST_DEG = 0.01;

/**
 * What is to be said beside a reading of electronic instruments: sampled less than half an hour
 * (from the opening of the stream it came by), warmth moved since the first reading of the same
 * standing, counts too coarse. Hand-read instruments are held to the texts, never to these.
 */
export function readingFlags(session: SessionState, reading: Reading, line: number): ReadingFlag[] {
  return reading.instruments.flatMap((read) => {
    const flag = (kind: ReadingFlag['kind'], words: string): ReadingFlag => ({
      instrument: read.instrument,
      label: read.label,
      kind,
      words: `${read.label}: ${words}`,
    });
    const flags: ReadingFlag[] = [];
    const stream = streamOf(session, read.instrument, reading.toS);
    const sampledS = stream === undefined ? null : reading.toS - stream.openedS;
    if (sampledS !== null && sampledS < WARM_UP_S)
      flags.push(flag('warming-up', `sampled for ${minutes(sampledS)}, 30 minutes are asked`));
    const moved = movedK(session, read, line);
    if (moved !== null && Math.abs(moved) > MOST_TEMPERATURE_MOVE_K)
      flags.push(
        flag(
          'temperature-moved',
          `its own warmth moved ${moved.toFixed(1)} K since the first reading`,
        ),
      );
    const stepDeg = stepDegOf(session, stream, read.instrument);
    if (stepDeg !== null && stepDeg > COARSEST_DEG)
      flags.push(flag('coarse', `one count is ${stepDeg.toFixed(3)} degrees`));
    const part = stream?.parts.find(({ instrument }) => instrument === read.instrument)?.part;
    const second = part === undefined ? null : (inclinometerPart(part)?.secondBecause ?? null);
    if (second !== null)
      flags.push(
        flag('second-sensor', `no more than a second sensor beside a better one: ${second}`),
      );
    return flags;
  });
}

function minutes(seconds: number): string {
  const whole = Math.floor(seconds / 60);
  return whole === 1 ? '1 minute' : `${whole} minutes`;
}

function streamOf(session: SessionState, instrument: string, atS: number) {
  return session.streams.findLast(
    ({ parts, openedS }) => openedS <= atS && parts.some((one) => one.instrument === instrument),
  );
}

/** Of one count of a chip, or the step an instrument on a serial line was seen or stated to have. */
function stepDegOf(
  session: SessionState,
  stream: SessionState['streams'][number] | undefined,
  instrument: string,
): number | null {
  const read = stream?.parts.find((one) => one.instrument === instrument);
  if (read === undefined) return null;
  const mounting = session.mountings.find((one) => one.instrument === instrument);
  const spanM = mounting?.spanM ?? null;
  const { part, counted } = read;
  if (counted === undefined) return resolutionDeg(part, spanM, mounting?.asBuilt);
  return counted.step === null ? null : heelDegOfDifference(counted.step, counted.unit, spanM);
}

type Read = Reading['instruments'][number];

/** Against the first reading since the sensor was put down; null where a chip tells no warmth. */
function movedK(session: SessionState, read: Read, line: number): number | null {
  const sinceLine = session.remounted.findLast(
    (one) => one.instrument === read.instrument && one.written.line < line,
  )?.written.line;
  const first = session.states
    .flatMap(({ reading, readingWritten, voided }) => [
      ...voided,
      ...(reading !== null && readingWritten !== null
        ? [{ reading, written: readingWritten }]
        : []),
    ])
    .filter(({ written }) => written.line >= (sinceLine ?? 0))
    .toSorted((a, b) => a.written.line - b.written.line)
    .map((one) => one.reading.instruments.find((each) => each.instrument === read.instrument))
    .find((one) => one?.temperatureC != null);
  if (first?.temperatureC == null || read.temperatureC == null) return null;
  return read.temperatureC - first.temperatureC;
}
