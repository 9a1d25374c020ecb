import type { FaultCode } from '../fault/fault.ts';
import * as ads1115 from '../part/ads1115.ts';
import { levelMmFromVolts, loopIsSound } from '../part/current-loop-level.ts';
import * as iis2iclx from '../part/iis2iclx.ts';
import { degreesFromRadians } from '../quantity/angle.ts';
import type { Certificate, Mounting } from './certificate.ts';
import type { Channel, SampleBlock } from './stream-item.ts';

/** How one instrument of a stream is to be read. */
export interface MountedInstrument {
  readonly mounting: Mounting;
  /** Null: the indication is taken as it is, and says so by `calibrated: false`. */
  readonly certificate: Certificate | null;
}

/** One instrument's part of a block; every column has one value a sample. */
export interface InstrumentHeel {
  readonly instrument: string;
  /** Starboard down positive. Null where a count it needs is missing or at fault. */
  readonly heelDeg: readonly (number | null)[];
  /** Of the chip, with an unknown offset; null where the instrument has none or it was not read. */
  readonly temperatureC: readonly (number | null)[];
  /** False: no certificate, the heel is uncorrected and not for GM. */
  readonly calibrated: boolean;
  /** What conversion itself found wrong: [sample index in block, code]. */
  readonly faults: readonly (readonly [number, FaultCode])[];
}

/**
 * Pairs two legs that are read in turn: the older reading of a pair may be this many periods old
 * (two is the least that lets every sample have a pair; one missing frame is forgiven).
 */
const OLDEST_LEG_PERIODS = 3.5;

/** Indication to truth by the certificate's fitted line, in the unit of the fit. */
export function correctedIndication(indicated: number, certificate: Certificate | null): number {
  return certificate === null ? indicated : certificate.zero + certificate.scale * indicated;
}

/**
 * Heel from the sine of an inclinometer (specific force along y over gravity, so local gravity
 * must be that of the calibration within what GM can bear). Null beyond the vertical.
 */
export function heelDegFromSine(indicatedSine: number, of: MountedInstrument): number | null {
  const sine = correctedIndication(indicatedSine, of.certificate);
  if (Math.abs(sine) > 1) return null;
  return of.mounting.sign * degreesFromRadians(Math.asin(sine));
}

/**
 * Heel from a water tube: levels along the legs differ by span times tangent of heel. The
 * difference is starboard less port, mm. RangeError when the mounting has no span.
 */
export function heelDegFromLevelDifference(differenceMm: number, of: MountedInstrument): number {
  const { spanM, sign, instrument } = of.mounting;
  if (spanM === null) throw new RangeError(`the water tube ${instrument} has no span`);
  const trueMm = correctedIndication(differenceMm, of.certificate);
  return sign * degreesFromRadians(Math.atan(trueMm / (spanM * 1000)));
}

interface Column {
  readonly index: number;
  readonly part: string;
}

/** A block with its faults looked up by column. */
interface CheckedBlock {
  readonly block: SampleBlock;
  readonly faulty: ReadonlySet<number>;
}

/** Key of a faulty count: sample and channel in one number (a block has at most 256 samples). */
const faultKey = (sample: number, column: number): number => column * 256 + sample;

type Converter = (checked: CheckedBlock) => InstrumentHeel;

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
      .map((one) =>
        one.mounting.kind === 'inclinometer'
          ? inclinometerConverter(stream.channels, one)
          : waterTubeConverter(stream.channels, stream.periodUs, one),
      );
  }

  convert(block: SampleBlock): InstrumentHeel[] {
    const faulty = new Set(block.faults.map(([sample, column]) => faultKey(sample, column)));
    return this.#converters.map((convert) => convert({ block, faulty }));
  }
}

function columnOf(channels: readonly Channel[], instrument: string, quantity: string): Column {
  const index = channels.findIndex(
    (one) => one.instrument === instrument && one.quantity === quantity,
  );
  const found = channels[index];
  if (found === undefined) throw new RangeError(`${instrument} has no column ${quantity}`);
  return { index, part: found.part };
}

/** The count of a sample, or null where it is missing or has a fault. */
function soundCount(checked: CheckedBlock, column: Column, sample: number): number | null {
  if (checked.faulty.has(faultKey(sample, column.index))) return null;
  return checked.block.columns[column.index]?.[sample] ?? null;
}

function needPart(column: Column, part: string): void {
  if (column.part !== part) throw new RangeError(`counts of a ${column.part}, not of an ${part}`);
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
