import { Fault } from '#core/fault/fault.ts';
import { SERIAL_PARTS } from '#core/part/counted.ts';
import type { Clock } from '#core/time/clock.ts';
import { ModbusLine } from '../bus/modbus-line.ts';
import type { Clocks } from '../machine-clock.ts';
import { waitS } from '../machine-clock.ts';
import type { ModbusInstrument, ModbusRtuLine } from '../serial-outfit.ts';
import type { Transport } from '../transport.ts';
import type { Count } from './driver.ts';
import {
  countedOfColumn,
  countFromRegisters,
  type PlannedRead,
  plannedReads,
  registersNeeded,
  stateOfCount,
} from './modbus-map.ts';
import type { SerialFeed, SerialListener, SerialOpening } from './serial-feed.ts';

const MOST_LEFT_OUT = 2 ** 16;
type Column = ModbusInstrument['columns'][number];

/** One instrument of the line, and whether it has been proven to be the one meant. */
interface Answerer {
  readonly instrument: ModbusInstrument;
  readonly reads: readonly PlannedRead[];
  proven: boolean;
}

/** Asks the instruments of a line of Modbus RTU for their registers, round after round. */
export class ModbusFeed implements SerialFeed {
  readonly #line: ModbusRtuLine;
  readonly #bus: ModbusLine;
  readonly #clock: Clock;
  readonly #answerers: readonly Answerer[];
  #listener: SerialListener | null = null;
  #runs = false;

  constructor(transport: Transport, line: ModbusRtuLine, clocks: Clocks) {
    this.#line = line;
    this.#clock = clocks.station;
    this.#bus = new ModbusLine(transport, {
      clock: clocks.station,
      where: line.port,
      deadlineS: line.deadlineMs / 1000,
      baudRate: line.baudRate,
    });
    this.#answerers = line.instruments.map((instrument) => ({
      instrument,
      reads: readsOf(instrument),
      proven: false,
    }));
  }

  async prove(listener: SerialListener): Promise<SerialOpening> {
    this.#listener = listener;
    const faults: Fault[] = [];
    for (const answerer of this.#answerers) {
      try {
        await this.#proveOne(answerer);
        for (const { request } of answerer.reads) await this.#bus.ask(request);
      } catch (error) {
        if (!(error instanceof Fault)) throw error;
        faults.push(error);
      }
    }
    if (faults.length === this.#answerers.length) throw faults[0]!;
    for (const fault of faults) listener.tell(fault);
    return {
      channels: this.#answerers.flatMap(({ instrument: { instrument, columns, unit } }) =>
        columns.map((column) => ({
          instrument,
          quantity: column.quantity,
          part: SERIAL_PARTS.modbus,
          address: String(column.unitNumber ?? unit),
          counted: countedOfColumn(column),
        })),
      ),
      periodUs: this.#line.pollMs * 1000,
      firmware: 'Modbus RTU',
    };
  }

  start(): void {
    this.#runs = true;
    void this.#run();
  }

  stop(): void {
    this.#runs = false;
    this.#listener = null;
  }

  /** Rounds keep their times; one that could not begin before the next is left out and counted. */
  async #run(): Promise<void> {
    const periodS = this.#line.pollMs / 1000;
    let dueS = this.#clock.monotonicS();
    let leftOut = 0;
    while (this.#runs) {
      await this.#round(leftOut);
      dueS += periodS;
      const late = Math.floor((this.#clock.monotonicS() - dueS) / periodS);
      if (late > 0) {
        leftOut = (leftOut + late) % MOST_LEFT_OUT;
        dueS += late * periodS;
      }
      await waitS(this.#clock, Math.max(0, dueS - this.#clock.monotonicS()));
    }
  }

  async #round(leftOut: number): Promise<void> {
    const times: number[] = [];
    const counts: Count[] = [];
    for (const answerer of this.#answerers) counts.push(...(await this.#countsOf(answerer, times)));
    const [first, last] = [times[0], times.at(-1)];
    // A round without any answer has no time but its own end.
    const atS =
      first === undefined || last === undefined ? this.#clock.monotonicS() : (first + last) / 2;
    this.#listener?.sample({ counts, atS, leftOut });
  }

  async #countsOf(answerer: Answerer, times: number[]): Promise<Count[]> {
    const { columns } = answerer.instrument;
    try {
      if (!answerer.proven) await this.#proveOne(answerer);
      const counts: Count[] = columns.map(() => ({ count: null, fault: null }));
      for (const { request, places } of answerer.reads) {
        const { registers, atS } = await this.#bus.ask(request);
        times.push(atS);
        for (const { index, at } of places) counts[index] = countOf(columns[index]!, registers, at);
      }
      return counts;
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      answerer.proven = false;
      this.#listener?.tell(error);
      return columns.map(() => ({ count: null, fault: error.code }));
    }
  }

  /** Reads the numbers that say who it is; after any fault they are read again first. */
  async #proveOne(answerer: Answerer): Promise<void> {
    const { unit, identity, instrument } = answerer.instrument;
    for (const wanted of identity) {
      const { table, register } = wanted;
      const count = registersNeeded(wanted);
      const { registers } = await this.#bus.ask({ unit, table, register, count });
      const found = countFromRegisters(registers, wanted);
      if (found !== wanted.equals) {
        const where = `${this.#line.port} unit ${unit} ${instrument}`;
        const words = `${table} register ${register} holds ${found}, not ${wanted.equals}`;
        throw new Fault('chip-wrong-identity', where, words);
      }
    }
    answerer.proven = true;
  }
}

function countOf(column: Column, registers: readonly number[], at: number): Count {
  const own = registers.slice(at, at + registersNeeded(column));
  const count = countFromRegisters(own, column);
  const state = stateOfCount(count, column);
  if (state === 'not-a-number') return { count: null, fault: 'modbus-not-a-number' };
  return { count, fault: state === 'saturated' ? 'chip-saturated' : null };
}

/** Questions by unit; the places say which column of the instrument they are. */
function readsOf({ unit, columns }: ModbusInstrument): PlannedRead[] {
  const units = new Set(columns.map((column) => column.unitNumber ?? unit));
  return [...units].flatMap((one) => {
    const indices = [...columns.keys()].filter((k) => (columns[k]!.unitNumber ?? unit) === one);
    const reads = plannedReads(
      one,
      indices.map((k) => columns[k]!),
    );
    return reads.map(({ request, places }) => ({
      request,
      places: places.map(({ index, at }) => ({ index: indices[index]!, at })),
    }));
  });
}
