import { Fault } from '../fault/fault.ts';
import { deflectionFromHandRead } from '../reading/deflection.ts';
import { type LegSumVerdict, type LegsRead, legSumOf } from '../reading/leg-sum.ts';
import { readersCompared } from '../reading/two-readers.ts';
import type { HandReading } from '../record/reading-line.ts';
import type { PendulumAsk } from './pendulum-asks.ts';
import type { SessionState } from './session.ts';

/** The texts' limits for what is read by eye; electronic instruments are held to others. */
const LEAST_LENGTH_MM = 3000;
const LEAST_DIFFERENCE_MM = 150;

const SUM_WORDS: Readonly<Record<LegSumVerdict, string>> = {
  constant: 'constant',
  fallen: 'it falls: the tube leaks',
  risen: 'it rises: water came in',
  'moves-with-heel': 'it moves with the heel: air in the tube, or legs of unlike bore',
  jumps: 'it jumps: a bubble moved, or a leg was misread',
};

/**
 * What is asked of instruments read by hand beside their number and deflection: length, both legs of a
 * tube, its level difference, the sum of its legs, two readers who agree, and a time mark on each
 * sheet. Only what was read is judged: a day without a tube is asked nothing of one.
 */
export function handAsks(session: SessionState): PendulumAsk[] {
  const read = session.states.flatMap((state) => state.handReadings.map(({ reading }) => reading));
  if (read.length === 0) return [];
  const tubes = read.filter(({ kind }) => kind === 'u-tube');
  const pendulums = read.filter(({ kind }) => kind === 'pendulum');
  return [
    ...(pendulums.length === 0 ? [] : [lengthAsk(pendulums)]),
    ...(tubes.length === 0 ? [] : [bothLegsAsk(tubes), differenceAsk(tubes)]),
    ...sumAsks(tubes),
    ...readersAsks(session),
    ...(session.timeMarks.length === 0 ? [] : [markAsk(session, read)]),
  ];
}

function lengthAsk(pendulums: readonly HandReading[]): PendulumAsk {
  const shortest = Math.min(...pendulums.map(({ lengthMm }) => lengthMm));
  return {
    asks: `pendulums of ${LEAST_LENGTH_MM / 1000} m or more, 4 to 6 m where there is room`,
    source: 'IS Code annex 1 2.4, from memory',
    met: shortest >= LEAST_LENGTH_MM,
    found: `the shortest ${shortest} mm`,
  };
}

function bothLegsAsk(tubes: readonly HandReading[]): PendulumAsk {
  const both = tubes.filter(({ portLegMm }) => portLegMm !== undefined).length;
  return {
    asks: 'both legs of a tube read',
    source: 'IS Code annex 1 2.5, from memory',
    met: both === tubes.length,
    found: `${both} of ${tubes.length} readings`,
  };
}

function differenceAsk(tubes: readonly HandReading[]): PendulumAsk {
  const least = Math.min(
    ...[...byInstrument(tubes).values()].map((readings) => {
      const rests = readings.flatMap((one) => deflectionOf(one)?.restMm ?? []);
      return Math.min(Math.max(0, ...rests), -Math.min(0, ...rests));
    }),
  );
  return {
    asks: `a level difference of ${LEAST_DIFFERENCE_MM} mm to each side`,
    source: 'IS Code annex 1 2.5, from memory',
    met: least >= LEAST_DIFFERENCE_MM,
    found: `${least.toFixed(0)} mm to the lesser side`,
  };
}

function sumAsks(tubes: readonly HandReading[]): PendulumAsk[] {
  return [...byInstrument(tubes)].flatMap(([instrument, readings]) => {
    const legs = readings.flatMap((one) => legsOf(one) ?? []);
    if (legs.length < 2) return [];
    const { meanMm, driftMm, withHeelMm, leftOverMm, verdict } = legSumOf(legs);
    const [most] = [driftMm, withHeelMm, leftOverMm].toSorted((a, b) => Math.abs(b) - Math.abs(a));
    return [
      {
        asks: `the sum of the legs of ${instrument} stays`,
        source: 'the water only changes sides; 3 mm is our setting',
        met: verdict === 'constant',
        found: `${meanMm.toFixed(1)} mm, ${SUM_WORDS[verdict]} (${most!.toFixed(1)} mm)`,
      },
    ];
  });
}

/** Means over the swing: the two legs turn together. */
function legsOf({ portLegMm, starboardLegMm }: HandReading): LegsRead | null {
  if (portLegMm === undefined || starboardLegMm === undefined) return null;
  const mean = (levels: readonly number[]) =>
    levels.reduce((total, level) => total + level, 0) / levels.length;
  return { portMm: mean(portLegMm), starboardMm: mean(starboardLegMm) };
}

/** One row for each two readers of an instrument who read the same states. */
function readersAsks(session: SessionState): PendulumAsk[] {
  const pairs = new Map<string, { words: string; agree: number; most: number; of: number }>();
  for (const { handReadings } of session.states) {
    for (const [k, { reading: first }] of handReadings.entries()) {
      for (const { reading: second } of handReadings.slice(k + 1)) {
        if (first.instrument !== second.instrument || first.reader === second.reader) continue;
        const [a, b] = [deflectionOf(first), deflectionOf(second)];
        if (a === null || b === null) continue;
        const readers = [first.reader, second.reader].toSorted();
        const words = `${readers.join(' and ')} agree on ${first.instrument}`;
        const { differenceDeg, agree } = readersCompared(a, b);
        const pair = pairs.get(words) ?? { words, agree: 0, most: 0, of: 0 };
        pairs.set(words, {
          words,
          agree: pair.agree + (agree ? 1 : 0),
          most: Math.max(pair.most, Math.abs(differenceDeg)),
          of: pair.of + 1,
        });
      }
    }
  }
  return [...pairs.values()].map(({ words, agree, most, of }) => ({
    asks: `two readers: ${words}`,
    source: 'within what their own readings leave open (95 %)',
    // One in twenty lies outside by chance.
    met: of - agree <= Math.floor(of / 10),
    found: `${agree} of ${of} states, at most ${most.toFixed(3)} degree apart`,
  }));
}

function markAsk(session: SessionState, read: readonly HandReading[]): PendulumAsk {
  const marks = session.timeMarks.length;
  const named = [...byInstrument(read)].map(([instrument, readings]) => ({
    instrument,
    marked: readings.some(({ mark }) => mark !== undefined && mark <= marks),
  }));
  const without = named.filter(({ marked }) => !marked).map(({ instrument }) => instrument);
  return {
    asks: 'a time mark in every instrument',
    source: 'our setting: so that sheets and samples can be laid beside each other',
    met: without.length === 0,
    found: without.length === 0 ? `${marks} marks` : `none on the sheet of ${without.join(', ')}`,
  };
}

function byInstrument(readings: readonly HandReading[]): Map<string, HandReading[]> {
  const by = new Map<string, HandReading[]>();
  for (const one of readings) by.set(one.instrument, [...(by.get(one.instrument) ?? []), one]);
  return by;
}

/** Null for what gives no heel; the result names those by themselves. */
function deflectionOf(reading: HandReading) {
  try {
    return deflectionFromHandRead(reading);
  } catch (error) {
    if (error instanceof Fault) return null;
    throw error;
  }
}
