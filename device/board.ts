import firmataIo, { type Firmata } from 'firmata-io';
import five from 'johnny-five';
import { Fault } from '#core/fault/fault.ts';
import { portTrouble } from './port-trouble.ts';
import type { BoardPort } from './transport.ts';
import { watchTransport } from './transport-watch.ts';

/** Name our firmware gives itself (hardware/firmware/README.md, "Firmata"). */
const OUR_FIRMWARE = 'heelwright';
/** A board that did not reset when its port was opened does not introduce itself: it is asked then. */
const ASK_AFTER_MS = 700;
/** StandardFirmata blinks its version for two seconds first; a bootloader may take two more. */
export const READY_WITHIN_MS = 6000;

/** A board that has introduced itself. Once lost it is never used again: a new one is made. */
export interface ConnectedBoard {
  readonly io: Firmata;
  readonly baudRate: number;
  /** Name and version the firmware gives itself. */
  readonly firmware: string;
  readonly isOurs: boolean;
  /** Resolves when the port is gone, with what was heard of it; never rejects. */
  readonly lost: Promise<string>;
  /** Resolves when the port is closed. */
  close(): Promise<void>;
}

/**
 * Opens a port and waits for the board's own introduction. Rejects with `port-not-open`,
 * `port-permission`, `port-in-use` or `board-silent`; the port is closed then.
 */
export async function connectBoard(
  port: BoardPort,
  baudRate: number,
  readyWithinMs = READY_WITHIN_MS,
): Promise<ConnectedBoard> {
  const transport = port.open(baudRate);
  const watch = watchTransport(transport);
  // firmata-io turns the port's 'open' into its own 'connect', so it is made before that comes.
  const io = new firmataIo.Firmata(transport, { reportVersionTimeout: ASK_AFTER_MS });
  io.on('error', () => undefined);
  try {
    await ready(io, port.name, { lost: watch.lost, readyWithinMs });
  } catch (error) {
    await watch.close();
    throw error;
  }
  const { name = '', version } = io.firmware;
  return {
    io,
    baudRate,
    firmware: `${name} ${version?.major ?? 0}.${version?.minor ?? 0}`.trim().slice(0, 64),
    // The name a sketch sends is its file name, so an ending may follow.
    isOurs: name === OUR_FIRMWARE || name.startsWith(`${OUR_FIRMWARE}.`),
    lost: watch.lost,
    close: watch.close,
  };
}

function ready(
  io: Firmata,
  portName: string,
  options: { lost: Promise<string>; readyWithinMs: number },
): Promise<void> {
  const settings = {
    io,
    repl: false,
    debug: false,
    sigint: false,
    timeout: options.readyWithinMs + 1000,
  };
  const board = new five.Board(settings);
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => {
      reject(new Fault('board-silent', portName, `no introduction in ${options.readyWithinMs} ms`));
    }, options.readyWithinMs);
    board.on('ready', () => {
      clearTimeout(timer);
      resolve();
    });
    // johnny-five tells of a time-out here too; ours comes first and is the one that counts.
    board.on('error', () => undefined);
    void options.lost.then((why) => {
      clearTimeout(timer);
      void portTrouble(portName, why).then(reject);
    });
  });
}
