import { Fault } from '#core/fault/fault.ts';
import type { Channel } from '#core/sample/stream-item.ts';
import type { Clock } from '#core/time/clock.ts';
import { type FramedSentence, SentenceLines } from '../bus/sentence-lines.ts';
import type { NmeaInstrument, NmeaLine } from '../serial-outfit.ts';
import type { Transport } from '../transport.ts';
import type { Count } from './driver.ts';
import {
  countedOf,
  type NmeaReading,
  part,
  quantitiesOf,
  readHeel,
  silentFault,
  withoutRepeated,
  wordsOf,
} from './nmea-0183.ts';
import { readSentence } from './nmea-sentence.ts';
import type { SerialFeed, SerialListener, SerialOpening } from './serial-feed.ts';

/** Readings listened to before a stream opens: enough for the usual time between them. */
const FIRST_READINGS = 9;
const LISTEN_S = 6;
const FEWEST_READINGS = 3;
/** What the smoothing needs: readings farther apart leave gaps (core/sample/smoothing.ts). */
const MOST_PERIOD_US = 125_000;
/** A start bit, the byte, a stop bit. */
const BITS_A_BYTE = 10;
const NO_COUNT: Count = { count: null, fault: null };

interface Talker {
  readonly instrument: NmeaInstrument;
  readonly quantities: readonly string[];
  before: NmeaReading | null;
  /** Of the sentences heard at first: when they began, and the most places printed. */
  readonly atS: number[];
  places: number | null;
}

/** Listens to a line of NMEA 0183; a sentence is a sample of the instruments it is about. */
export class NmeaFeed implements SerialFeed {
  readonly #line: NmeaLine;
  readonly #clock: Clock;
  readonly #talkers: readonly Talker[];
  readonly #heard = new Set<string>();
  #listener: SerialListener | null = null;
  #proving: (() => void) | null = null;
  #runs = false;
  #lastS = Number.NEGATIVE_INFINITY;

  /** @param clock the station's */
  constructor(transport: Transport, line: NmeaLine, clock: Clock) {
    this.#line = line;
    this.#clock = clock;
    this.#talkers = line.instruments.map((instrument) => ({
      instrument,
      quantities: quantitiesOf(instrument),
      before: null,
      atS: [],
      places: null,
    }));
    const lines = new SentenceLines(line.port, {
      sentence: (sentence) => this.#take(sentence),
      malformed: (fault) => this.#listener?.tell(fault),
    });
    transport.on('data', (bytes: Uint8Array) => lines.take(bytes));
  }

  async prove(listener: SerialListener): Promise<SerialOpening> {
    this.#listener = listener;
    await new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, LISTEN_S * 1000);
      this.#proving = () => {
        if (this.#talkers.some(({ atS }) => atS.length < FIRST_READINGS)) return;
        clearTimeout(timer);
        resolve();
      };
    });
    this.#proving = null;
    const silent = this.#talkers.filter(({ atS }) => atS.length < FEWEST_READINGS);
    const faults = silent.map(({ instrument }) =>
      silentFault(`${this.#line.port} ${instrument.instrument}`, this.#heard, askedFor(instrument)),
    );
    if (silent.length === this.#talkers.length) throw faults[0]!;
    for (const fault of faults) listener.tell(fault);
    const periodUs = Math.min(...this.#talkers.map(usualPeriodUs));
    if (periodUs > MOST_PERIOD_US) {
      const found = `one every ${(periodUs / 1e6).toFixed(2)} s`;
      listener.tell(new Fault('serial-too-slow', this.#line.port, found));
    }
    return { channels: this.#talkers.flatMap(channelsOf), periodUs, firmware: 'NMEA 0183' };
  }

  start(): void {
    this.#runs = true;
  }

  stop(): void {
    this.#runs = false;
    this.#listener = null;
  }

  #take({ text, bytesSinceStart }: FramedSentence): void {
    // The reading is as old as its sentence is long, and what came after it in one piece.
    const atS = this.#clock.monotonicS() - (bytesSinceStart * BITS_A_BYTE) / this.#line.baudRate;
    try {
      const sentence = readSentence(text, this.#line.port);
      const readings = this.#talkers.map((talker) => {
        const read = readHeel(sentence, talker.instrument);
        if (read === null) return null;
        const reading = withoutRepeated(talker.instrument, read, talker.before);
        talker.before = read;
        return reading;
      });
      if (readings.every((reading) => reading === null)) {
        if (this.#heard.size < 20) this.#heard.add(wordsOf(sentence));
        return;
      }
      if (this.#runs) this.#give(readings, atS);
      else this.#learn(readings, atS);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.#listener?.tell(error);
    }
  }

  #learn(readings: readonly (NmeaReading | null)[], atS: number): void {
    for (const [index, reading] of readings.entries()) {
      const talker = this.#talkers[index]!;
      if (reading === null || talker.atS.length >= FIRST_READINGS) continue;
      talker.atS.push(atS);
      if (reading.places !== null) talker.places = Math.max(talker.places ?? 0, reading.places);
    }
    this.#proving?.();
  }

  #give(readings: readonly (NmeaReading | null)[], atS: number): void {
    this.#lastS = Math.max(atS, this.#lastS);
    const counts = readings.flatMap(
      (reading, index) => reading?.counts ?? this.#talkers[index]!.quantities.map(() => NO_COUNT),
    );
    this.#listener?.sample({ counts, atS: this.#lastS, leftOut: 0 });
  }
}

function channelsOf({ instrument, quantities, places }: Talker): Channel[] {
  const stepDeg = places === null ? null : 10 ** -Math.min(places, 9);
  return quantities.map((quantity) => ({
    instrument: instrument.instrument,
    quantity,
    part,
    counted: countedOf(quantity, stepDeg),
  }));
}

/** The middle one of the times between its sentences. */
function usualPeriodUs({ atS }: Talker): number {
  const steps = atS.slice(1).map((at, k) => at - atS[k]!);
  const middle = steps.toSorted((a, b) => a - b)[Math.floor(steps.length / 2)];
  return middle === undefined ? Number.POSITIVE_INFINITY : Math.round(middle * 1e6);
}

function askedFor({ sentence, transducer }: NmeaInstrument): string {
  return sentence === 'PASHR' ? 'PASHR' : `XDR of ${transducer ?? 'ROLL or HEEL'}`;
}
