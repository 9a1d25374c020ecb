import { z } from 'zod';
import { FAULTS, type FaultCode } from '../fault/fault.ts';
import { counted } from '../part/counted.ts';

/**
 * What a board's stream consists of. A stream is one unbroken run of one board: a new one begins
 * after every open, reset, replug or silence over a minute. Its items are numbered from 0 without
 * a hole; item 0 is always the opening. The JSON bytes of an item are made once, beside the
 * board, and are the same in the spool, on the wire, in the record and in an export.
 */
export const MOST_SAMPLES_IN_BLOCK = 256;
export const MOST_CHANNELS = 16;
export const MOST_FAULTS_IN_BLOCK = 4096;
export const MOST_ITEM_BYTES = 64 * 1024;

const faultCode = z.enum(Object.keys(FAULTS) as [FaultCode, ...FaultCode[]]);
const name = z.string().min(1).max(64);
const count = z.number().int().nonnegative().max(Number.MAX_SAFE_INTEGER);
/** `station/board/counter`: who runs the board, which board, the how-manieth stream of this station. */
export const STREAM_ID = /^[0-9a-z-]{1,40}\/[0-9A-Za-z-]{1,40}\/\d{1,9}$/;
export const streamId = z.string().regex(STREAM_ID);

/** One integer column: a register value as the chip gave it, unconverted. */
export const channel = z.strictObject({
  /** The instrument it belongs to; an instrument is one calibrated thing (a chip, a pair of legs). */
  instrument: name,
  /** What the count stands for: `y` and `x` of an inclinometer, `temperature`, `port` and `starboard` leg. */
  quantity: name,
  /** Part number in lower case; core/part/<part>.ts converts its counts. */
  part: name,
  /** How counts of an instrument on a serial line are read; missing: the part says it. */
  counted: counted.optional(),
  /** Where its chip answers on the board's bus, or its unit on a serial line; missing: it has no address, or an older board side. */
  address: z.string().min(1).max(40).optional(),
});
export type Channel = z.infer<typeof channel>;

export const streamOpened = z.strictObject({
  type: z.literal('stream-opened'),
  stream: streamId,
  number: z.literal(0),
  v: z.literal(1),
  station: name,
  /** The board's own random identity from its EEPROM, or a typed name when it is not our firmware. */
  board: name,
  boardIsOurs: z.boolean(),
  resetCounter: count,
  /** Where the board was found, for people: a port name, or `emulated`. */
  port: z.string().max(200),
  firmware: z.string().max(64),
  periodUs: z.number().int().positive().max(10_000_000),
  channels: z.array(channel).min(1).max(MOST_CHANNELS),
  /** Station monotonic time of opening. */
  openedStationS: z.number(),
  /**
   * The run of the station's program whose clock every station time of this stream is in: a stream
   * kept in the spool may be sent by a later run. Missing: the run that sends it.
   */
  run: name.optional(),
});

/**
 * At most one second of one board. Sample k has sequence `firstSequence + sequenceSteps...` and
 * board time `firstBoardUs + sum(stepUs[0..k])`; both counters are unwrapped already.
 * `stepUs[0]` is 0. A count that could not be read is null and has a fault; one that was not due
 * in this scan is null without. A count beside a fault stands as it was read.
 */
export const sampleBlock = z
  .strictObject({
    type: z.literal('samples'),
    stream: streamId,
    number: count,
    v: z.literal(1),
    firstSequence: count,
    firstBoardUs: count,
    /** Board microseconds since the sample before (unwrapped), first element 0. */
    stepUs: z.array(z.number().int().nonnegative()).min(1).max(MOST_SAMPLES_IN_BLOCK),
    /** Sequence steps; omitted when every step is 1 (nothing missing inside the block). */
    stepSequence: z.array(count).max(MOST_SAMPLES_IN_BLOCK).optional(),
    /** One column a channel, in the order of the opening. */
    columns: z
      .array(z.array(z.number().int().nullable()).max(MOST_SAMPLES_IN_BLOCK))
      .min(1)
      .max(MOST_CHANNELS),
    /** [sample index in block, channel index, code] */
    faults: z.array(z.tuple([count, count, faultCode])).max(MOST_FAULTS_IN_BLOCK),
    /** Scans the board itself had to leave out, counted since the block before. */
    skipped: count,
    /** Station monotonic time of arrival of the last sample of the block. */
    arrivedStationS: z.number(),
  })
  .refine(
    (block) =>
      block.columns.every((column) => column.length === block.stepUs.length) &&
      (block.stepSequence === undefined || block.stepSequence.length === block.stepUs.length),
    { message: 'columns differ in length' },
  );

/** Board time to station time: `stationS = offsetS + boardUs * 1e-6 * rate`, good from here on. */
export const boardClock = z.strictObject({
  type: z.literal('board-clock'),
  stream: streamId,
  number: count,
  v: z.literal(1),
  boardUs: count,
  stationS: z.number(),
  rate: z.number().positive(),
  /** Standard uncertainty of a time mapped near here. */
  uncertaintyS: z.number().nonnegative(),
  /** Standard uncertainty of the rate. Missing in streams made before maps said so. */
  rateUncertainty: z.number().nonnegative().optional(),
  /**
   * Station time from which on the station's clock is another than before: it was found to have
   * jumped or stood still there (the machine slept). A pairing with another clock from before
   * does not hold after. Missing: it never did in this run.
   */
  stationJumpedS: z.number().optional(),
});

export const streamFault = z.strictObject({
  type: z.literal('stream-fault'),
  stream: streamId,
  number: count,
  v: z.literal(1),
  code: faultCode,
  where: z.string().max(200),
  found: z.string().max(500),
  stationS: z.number(),
});

export const streamClosed = z.strictObject({
  type: z.literal('stream-closed'),
  stream: streamId,
  number: count,
  v: z.literal(1),
  reason: z.enum(['wanted', 'board-lost', 'board-reset', 'silence']),
  closedStationS: z.number(),
});

export const streamItem = z.discriminatedUnion('type', [
  streamOpened,
  sampleBlock,
  boardClock,
  streamFault,
  streamClosed,
]);

export type StreamOpened = z.infer<typeof streamOpened>;
export type SampleBlock = z.infer<typeof sampleBlock>;
export type BoardClock = z.infer<typeof boardClock>;
export type StreamClosed = z.infer<typeof streamClosed>;
export type StreamItem = z.infer<typeof streamItem>;
