import { Fault, type FaultReport } from '#core/fault/fault.ts';
import { type ConnectedBoard, connectBoard, READY_WITHIN_MS } from './board.ts';
import { FirmataBus } from './bus/firmata-bus.ts';
import { ScanBus } from './bus/scan-bus.ts';
import { machineClock } from './machine-clock.ts';
import { findChips } from './outfit.ts';
import { LISTEN_MS, listenAt } from './port-listen.ts';
import { holdersOf } from './port-trouble.ts';
import { nameFromPort } from './real-outfit.ts';
import type { SerialLine } from './serial-outfit.ts';
import { feedOf } from './serial-session.ts';
import { serialBoardPort, serialLinePort } from './transport.ts';
import { opened, watchTransport } from './transport-watch.ts';

/** What is behind one port. */
export interface PortAnswer {
  readonly port: string;
  readonly board: string | null;
  readonly name: string;
  readonly firmware: string;
  readonly boardIsOurs: boolean;
  readonly baudRate: number | null;
  readonly chips: readonly { part: string; address: number }[];
  /** Instruments that speak for themselves, as instruments.json describes them, and that answered. */
  readonly instruments: readonly string[];
  /** Sentences heard of an instrument nobody has described, one of each kind. */
  readonly heard: readonly string[];
  /** What is wrong, though something answers: part of it is silent, too slow, disturbed. */
  readonly warnings: readonly FaultReport[];
  /** Why nothing can be used; null: something can. */
  readonly fault: FaultReport | null;
}

const NOTHING = {
  board: null,
  name: '',
  firmware: '',
  boardIsOurs: false,
  baudRate: null,
  chips: [],
  instruments: [],
  heard: [],
  warnings: [],
  fault: null,
} as const;

/** How long a board may take to introduce itself, and an instrument to be heard at each rate. */
const USUAL_PATIENCE = { boardMs: READY_WITHIN_MS, listenMs: LISTEN_MS } as const;
type Patience = Readonly<Record<keyof typeof USUAL_PATIENCE, number>>;

/** A board, tried at each of its rates; where none answers, whatever speaks by itself. */
export async function lookForBoard(
  name: string,
  rename: string | null,
  patience: Patience = USUAL_PATIENCE,
): Promise<PortAnswer> {
  const port = serialBoardPort(name);
  let fault: Fault | null = null;
  for (const baudRate of port.baudRates) {
    try {
      const connected = await connectBoard(port, baudRate, patience.boardMs);
      try {
        return await ask(connected, name, rename);
      } finally {
        await connected.close();
      }
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      fault = error;
      if (error.code !== 'board-silent') break;
    }
  }
  if (fault?.code === 'board-silent') return listen(name, patience.listenMs);
  return { ...NOTHING, port: name, fault: await withHolders(name, fault!) };
}

/** A line that instruments.json describes: do its instruments answer? */
export async function lookAtLine(line: SerialLine): Promise<PortAnswer> {
  const port = serialLinePort(line.port, line);
  const warnings: FaultReport[] = [];
  const answer = { ...NOTHING, port: line.port, board: line.name, baudRate: line.baudRate };
  try {
    const transport = port.open(line.baudRate);
    const watch = watchTransport(transport);
    await opened(transport, watch, port.name);
    const clocks = { station: machineClock, machine: machineClock };
    const feed = feedOf(transport, line, clocks);
    try {
      const tell = ({ report }: Fault) => {
        if (warnings.length < 8) warnings.push(report);
      };
      const { firmware } = await feed.prove({ sample: () => undefined, tell });
      const silent = warnings.map(({ where }) => where).join('\n');
      const instruments = line.instruments
        .map(({ instrument }) => instrument)
        .filter((instrument) => !silent.includes(instrument));
      return { ...answer, firmware, instruments, warnings };
    } finally {
      feed.stop();
      await watch.close();
    }
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { ...answer, warnings, fault: await withHolders(line.port, error) };
  }
}

async function listen(name: string, listenMs: number): Promise<PortAnswer> {
  const format = { dataBits: 8, parity: 'none', stopBits: 1 } as const;
  const { baudRate, sentences, bytes } = await listenAt(
    (rate) => serialLinePort(name, { ...format, baudRate: rate }),
    listenMs,
  );
  if (sentences.length > 0) {
    return { ...NOTHING, port: name, baudRate, firmware: 'NMEA 0183', heard: sentences };
  }
  const fault =
    bytes > 0
      ? new Fault('port-baud', name, `${bytes} bytes, no sentence and no board among them`)
      : new Fault('board-silent', name, 'not a byte at any rate');
  return { ...NOTHING, port: name, fault: fault.report };
}

async function withHolders(port: string, fault: Fault): Promise<FaultReport> {
  if (fault.code !== 'port-in-use') return fault.report;
  const holders = await holdersOf(port);
  const words = holders.length === 0 ? 'by whom, the system does not tell' : holders.join(', ');
  return { ...fault.report, found: `${fault.report.found}: ${words}` };
}

async function ask(
  { io, isOurs, firmware, baudRate }: ConnectedBoard,
  port: string,
  rename: string | null,
): Promise<PortAnswer> {
  const ignore = { frame: () => undefined, malformed: () => undefined };
  const scanBus = isOurs ? new ScanBus(io, port, ignore) : null;
  if (scanBus === null && rename !== null) {
    throw new Fault('board-not-ours', port, 'only our firmware keeps a name');
  }
  const identity = rename === null ? await scanBus?.identify() : await scanBus?.rename(rename);
  const board = identity?.board ?? nameFromPort(port);
  const chips = await findChips(new FirmataBus(io, port), board);
  return {
    ...NOTHING,
    port,
    board,
    name: identity?.name ?? '',
    firmware,
    boardIsOurs: isOurs,
    baudRate,
    chips: chips.map(({ driver, address }) => ({ part: driver.part, address })),
  };
}
