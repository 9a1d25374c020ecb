import type { FaultCode } from '../fault/fault.ts';
import * as ads1115 from '../part/ads1115.ts';
import { levelMmFromVolts, loopIsSound } from '../part/current-loop-level.ts';
import * as iis2iclx from '../part/iis2iclx.ts';
import {
  type CheckedBlock,
  type Column,
  type Converter,
  columnOf,
  faultKey,
  type InstrumentHeel,
  needPart,
  soundCount,
} from './checked-block.ts';
import { countedConverter, isCounted } from './counted-heel.ts';
import {
  heelDegFromLevelDifference,
  heelDegFromSine,
  type MountedInstrument,
} from './indicated-heel.ts';
import type { Channel, SampleBlock } from './stream-item.ts';

/**
 * Pairs two legs that are read in turn: the older reading of a pair may be this many periods old
 * (two is the least that lets every sample have a pair; one missing frame is forgiven).
 */
const OLDEST_LEG_PERIODS = 3.5;

/**
 * Turns the counts of one stream into heel, block after block. Keeps only the newest reading of
 * each leg of a water tube between blocks, so blocks of one stream come in order.
 */
export class HeelConversion {
  readonly #converters: readonly Converter[];

  /**
   * Instruments of the stream that are not in `mounted` are left out: without a mounting nobody
   * knows which side is down. RangeError when an instrument lacks a column its kind needs.
   */
  constructor(
    stream: { channels: readonly Channel[]; periodUs: number },
    mounted: readonly MountedInstrument[],
  ) {
    const inStream = new Set(stream.channels.map((one) => one.instrument));
    this.#converters = mounted
      .filter((one) => inStream.has(one.mounting.instrument))
      .map((one) => {
        if (isCounted(stream.channels, one.mounting.instrument))
          return countedConverter(stream.channels, one);
        return one.mounting.kind === 'inclinometer'
          ? inclinometerConverter(stream.channels, one)
          : waterTubeConverter(stream.channels, stream.periodUs, one);
      });
  }

  convert(block: SampleBlock): InstrumentHeel[] {
    const faulty = new Set(block.faults.map(([sample, column]) => faultKey(sample, column)));
    return this.#converters.map((convert) => convert({ block, faulty }));
  }
}

function inclinometerConverter(channels: readonly Channel[], of: MountedInstrument): Converter {
  const { instrument } = of.mounting;
  const across = columnOf(channels, instrument, 'y');
  const temperature = columnOf(channels, instrument, 'temperature');
  needPart(across, 'iis2iclx');
  needPart(temperature, 'iis2iclx');
  return (checked) => {
    const samples = checked.block.stepUs.map((_, sample) => sample);
    return {
      instrument,
      heelDeg: samples.map((sample) => {
        const counts = soundCount(checked, across, sample);
        return counts === null ? null : heelDegFromSine(iis2iclx.gFromCounts(counts), of);
      }),
      temperatureC: samples.map((sample) => {
        const counts = soundCount(checked, temperature, sample);
        return counts === null ? null : iis2iclx.temperatureCFromCounts(counts);
      }),
      calibrated: of.certificate !== null,
      faults: [],
    };
  };
}

/** The newest reading of one leg: its level, or null after a fault, and when. */
interface Leg {
  readonly column: Column;
  levelMm: number | null;
  atUs: number;
}

function waterTubeConverter(
  channels: readonly Channel[],
  periodUs: number,
  of: MountedInstrument,
): Converter {
  const { instrument } = of.mounting;
  const leg = (quantity: string): Leg => {
    const column = columnOf(channels, instrument, quantity);
    needPart(column, 'ads1115');
    return { column, levelMm: null, atUs: Number.NEGATIVE_INFINITY };
  };
  const port = leg('port');
  const starboard = leg('starboard');
  return (checked) => {
    const { block } = checked;
    const faults: [number, FaultCode][] = [];
    let atUs = block.firstBoardUs;
    const heelDeg = block.stepUs.map((stepUs, sample) => {
      atUs += stepUs;
      for (const one of [port, starboard]) {
        const isSound = takeLeg(one, checked, sample, atUs);
        if (!isSound) faults.push([sample, 'leg-loop-broken']);
      }
      if (port.levelMm === null || starboard.levelMm === null) return null;
      const oldestUs = atUs - OLDEST_LEG_PERIODS * periodUs;
      if (port.atUs < oldestUs || starboard.atUs < oldestUs) return null;
      return heelDegFromLevelDifference(starboard.levelMm - port.levelMm, of);
    });
    return {
      instrument,
      heelDeg,
      temperatureC: block.stepUs.map(() => null),
      calibrated: of.certificate !== null,
      faults,
    };
  };
}

/** Takes a leg's count, if it was its turn. False when the loop's current is no sound one. */
function takeLeg(leg: Leg, checked: CheckedBlock, sample: number, atUs: number): boolean {
  const counts = soundCount(checked, leg.column, sample);
  if (counts === null) {
    // Null without a fault is the other leg's turn; a fault ends what was known of this leg.
    if (checked.faulty.has(faultKey(sample, leg.column.index))) leg.levelMm = null;
    return true;
  }
  const volts = ads1115.voltsFromCounts(counts);
  leg.atUs = atUs;
  leg.levelMm = loopIsSound(volts) ? levelMmFromVolts(volts) : null;
  return leg.levelMm !== null;
}
