import { z } from 'zod';
import { levelMmFromValue, sineFromValue } from '#core/part/counted.ts';
import { certificate, mounting } from '#core/sample/certificate.ts';
import { MOST_CHANNELS } from '#core/sample/stream-item.ts';
import { modbusColumn, modbusIdentity } from './drivers/modbus-map.ts';

const name = z.string().min(1).max(64);
const transducer = z.string().regex(/^[\x21-\x7e]{1,20}$/);
const unitNumber = z.number().int().min(1).max(247);

const common = {
  instrument: name,
  mounting,
  certificate: certificate.nullable(),
  /**
   * Seconds of one value after which it is called stuck. Missing: 10 where it can show 0.002 degree
   * or less (our setting), else it is not judged here, for rest is natural.
   */
  stuckAfterS: z.number().min(1).max(3600).optional(),
};

export const nmeaInstrument = z.strictObject({
  ...common,
  sentence: z.enum(['XDR', 'PASHR']),
  /** Name of the transducer in an XDR, as `ROLL` or `ROLL#2`; missing: ROLL or HEEL. */
  transducer: transducer.optional(),
  /** Name of a temperature in the same XDR. */
  temperature: transducer.optional(),
});
export type NmeaInstrument = z.infer<typeof nmeaInstrument>;

export const modbusInstrument = z.strictObject({
  ...common,
  unit: unitNumber,
  /** Numbers that prove which instrument answers. */
  identity: z.array(modbusIdentity).max(4).default([]),
  columns: z
    .array(
      modbusColumn.extend({
        /** Where one quantity is of another unit on the line (the other leg of a tube). */
        unitNumber: unitNumber.optional(),
      }),
    )
    .min(1)
    .max(8),
});
export type ModbusInstrument = z.infer<typeof modbusInstrument>;

const line = {
  port: z.string().min(1).max(200),
  /** What the line is called where a board has its identity. */
  name: z.string().regex(/^[0-9A-Za-z-]{1,40}$/),
  dataBits: z.union([z.literal(7), z.literal(8)]).default(8),
  stopBits: z.union([z.literal(1), z.literal(2)]).default(1),
};
const baudRate = z.number().int().min(300).max(921_600);
const parity = z.enum(['none', 'even', 'odd']);

/** 4800 baud, 8 bits, no parity is the standard's (*from memory*). */
const nmeaLine = z.strictObject({
  ...line,
  protocol: z.literal('nmea-0183'),
  baudRate: baudRate.default(4800),
  parity: parity.default('none'),
  instruments: z.array(nmeaInstrument).min(1).max(4),
});

/** 19200 baud, even parity is the standard's default (Modbus over serial line V1.02, *from memory*). */
const modbusLine = z.strictObject({
  ...line,
  protocol: z.literal('modbus-rtu'),
  baudRate: baudRate.default(19_200),
  parity: parity.default('even'),
  /** From one round of questions to the next. */
  pollMs: z.number().int().min(20).max(1000).default(100),
  deadlineMs: z.number().int().min(10).max(2000).default(200),
  instruments: z.array(modbusInstrument).min(1).max(4),
});

/** A serial line with instruments that speak for themselves. */
export const serialLine = z
  .discriminatedUnion('protocol', [nmeaLine, modbusLine])
  .superRefine((one, context) => {
    for (const [index, { instrument, mounting: of }] of one.instruments.entries()) {
      const path = ['instruments', index];
      const wrong = mountingTrouble(one, index);
      if (wrong !== null) context.addIssue({ code: 'custom', path, message: wrong });
      if (of.instrument !== instrument)
        context.addIssue({ code: 'custom', path, message: `the mounting is of ${of.instrument}` });
    }
    if (channelCount(one) > MOST_CHANNELS)
      context.addIssue({ code: 'custom', message: `more than ${MOST_CHANNELS} quantities` });
  });
export type SerialLine = z.infer<typeof serialLine>;
export type NmeaLine = z.infer<typeof nmeaLine>;
export type ModbusRtuLine = z.infer<typeof modbusLine>;

/** Why the quantities of an instrument cannot make the heel its mounting says it measures; null: they can. */
function mountingTrouble(of: NmeaLine | ModbusRtuLine, index: number): string | null {
  const isTube = of.instruments[index]?.mounting.kind === 'water-tube';
  if (of.protocol === 'nmea-0183') return isTube ? 'no sentence gives the levels of a tube' : null;
  const instrument = of.instruments[index]!;
  const quantities = instrument.columns.map(({ quantity }) => quantity);
  if (new Set(quantities).size < quantities.length) return 'a quantity is given twice';
  for (const quantity of isTube ? (['port', 'starboard'] as const) : (['heel'] as const)) {
    const column = instrument.columns.find((one) => one.quantity === quantity);
    if (column === undefined) return `it needs the quantity ${quantity}`;
    try {
      if (isTube) levelMmFromValue(0, column.unit);
      else sineFromValue(0, column.unit);
    } catch (error) {
      if (error instanceof RangeError) return error.message;
      throw error;
    }
  }
  return isTube && instrument.mounting.spanM === null ? 'a water tube needs spanM' : null;
}

function channelCount(of: NmeaLine | ModbusRtuLine): number {
  return of.protocol === 'nmea-0183'
    ? 2 * of.instruments.length
    : of.instruments.reduce((sum, { columns }) => sum + columns.length, 0);
}
