import type { FaultCode } from '../fault/fault.ts';
import { type LegPart, legPart } from '../part/leg-parts.ts';
import {
  type CheckedBlock,
  type Column,
  type Converter,
  columnOf,
  faultKey,
  needPart,
  soundCount,
} from './checked-block.ts';
import {
  heelDegFromFootDifference,
  heelDegFromLevelDifference,
  type MountedInstrument,
} from './indicated-heel.ts';
import type { Channel } from './stream-item.ts';

/**
 * Pairs what is read in turn: the older reading of a pair may be this many periods old (two is
 * the least that lets every sample have a pair; one missing frame is forgiven).
 */
const OLDEST_PERIODS = 3.5;

/** The newest sound count of one column: null after a fault, and when. */
interface Newest {
  readonly column: Column;
  counts: number | null;
  atUs: number;
}

/** One leg: its own column first, then those its level is made of besides. */
interface Leg {
  readonly columns: readonly Newest[];
  readonly temperature: Column | null;
}

/**
 * Counts of the two legs of a water tube to heel. RangeError for a part that reads no legs, or of
 * which something has to be known that the mounting does not say.
 */
export function waterTubeConverter(
  channels: readonly Channel[],
  periodUs: number,
  of: MountedInstrument,
): Converter {
  const { instrument, asBuilt } = of.mounting;
  const first = columnOf(channels, instrument, 'port');
  const part = legPart(first.part);
  if (part === undefined) throw new RangeError(`a ${first.part} reads no leg of a water tube`);
  const lacks = part.lacks(asBuilt);
  if (lacks !== null) throw new RangeError(`${instrument} lacks ${lacks}`);
  const legOfSide = (side: 'port' | 'starboard') =>
    legOf(channels, instrument, side, { part, name: first.part });
  const port = legOfSide('port');
  const starboard = legOfSide('starboard');
  const heelOf = part.senses === 'level' ? heelDegFromLevelDifference : heelDegFromFootDifference;
  const oldestUs = OLDEST_PERIODS * periodUs;
  return (checked) => {
    const { block } = checked;
    const faults: [number, FaultCode][] = [];
    let atUs = block.firstBoardUs;
    const heelDeg = block.stepUs.map((stepUs, sample) => {
      atUs += stepUs;
      const [portMm, starboardMm] = [port, starboard].map((leg) => {
        const isNew = takeNewest(leg, checked, sample, atUs);
        const level = levelOf(leg, part, of, atUs - oldestUs);
        if (level === 'unsound' && isNew) faults.push([sample, part.unsound]);
        return level;
      });
      if (typeof portMm !== 'number' || typeof starboardMm !== 'number') return null;
      return heelOf(starboardMm - portMm, of);
    });
    return {
      instrument,
      heelDeg,
      temperatureC: block.stepUs.map((_, sample) =>
        temperatureOf(port, starboard, part, checked, sample),
      ),
      calibrated: of.certificate !== null,
      faults,
    };
  };
}

function legOf(
  channels: readonly Channel[],
  instrument: string,
  side: 'port' | 'starboard',
  { part, name }: { part: LegPart; name: string },
): Leg {
  const names = [side, ...part.beside.map((beside) => `${side}-${beside}`)];
  const columns = names.map((quantity) => columnOf(channels, instrument, quantity));
  const temperature =
    part.temperatureC === null ? null : columnOf(channels, instrument, `${side}-temperature`);
  for (const column of columns) needPart(column, name);
  return {
    columns: columns.map((column) => ({ column, counts: null, atUs: Number.NEGATIVE_INFINITY })),
    temperature,
  };
}

/** Takes what was due of a leg in this sample. Whether anything was. */
function takeNewest(leg: Leg, checked: CheckedBlock, sample: number, atUs: number): boolean {
  let isNew = false;
  for (const newest of leg.columns) {
    const counts = soundCount(checked, newest.column, sample);
    // Null without a fault is the other's turn; a fault ends what was known.
    if (counts === null) {
      if (checked.faulty.has(faultKey(sample, newest.column.index))) newest.counts = null;
      continue;
    }
    newest.counts = counts;
    newest.atUs = atUs;
    isNew = true;
  }
  return isNew;
}

/** Level of a leg, mm; null where something is missing or older than `sinceUs`. */
function levelOf(
  leg: Leg,
  part: LegPart,
  of: MountedInstrument,
  sinceUs: number,
): number | 'unsound' | null {
  const counts: number[] = [];
  for (const newest of leg.columns) {
    if (newest.counts === null || newest.atUs < sinceUs) return null;
    counts.push(newest.counts);
  }
  return part.levelMm(counts, of.mounting.asBuilt) ?? 'unsound';
}

/** Mean of what the parts of both legs tell of their own warmth. */
function temperatureOf(
  port: Leg,
  starboard: Leg,
  part: LegPart,
  checked: CheckedBlock,
  sample: number,
): number | null {
  if (part.temperatureC === null || port.temperature === null || starboard.temperature === null) {
    return null;
  }
  const portCounts = soundCount(checked, port.temperature, sample);
  const starboardCounts = soundCount(checked, starboard.temperature, sample);
  if (portCounts === null || starboardCounts === null) return null;
  return (part.temperatureC(portCounts) + part.temperatureC(starboardCounts)) / 2;
}
