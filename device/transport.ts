import type { EventEmitter } from 'node:events';
import { SerialPort } from 'serialport';

/**
 * Bytes to and from a board: a serial port, or an emulated board. Events: 'open', 'data' (bytes),
 * 'close' (an Error when it was not wanted), 'error' (an Error). One that has closed or failed is
 * never used again.
 */
export interface Transport extends EventEmitter {
  write(bytes: Uint8Array, done?: (error?: Error | null) => void): boolean;
  close(done?: (error?: Error | null) => void): void;
}

/** A place where a board may be found. */
export interface BoardPort {
  /** As people call it: a port name, or `emulated` and the board. */
  readonly name: string;
  /** Rates to try, the likeliest first. */
  readonly baudRates: readonly number[];
  /** Opens it; 'open' comes later, never within the call. */
  open(baudRate: number): Transport;
}

/** Ours speaks at 115200, StandardFirmata at 57600 (its sketch fixes it). */
export const BAUD_RATES = [115_200, 57_600] as const;

export function serialBoardPort(path: string): BoardPort {
  return {
    name: path,
    baudRates: BAUD_RATES,
    open: (baudRate) => new SerialPort({ path, baudRate, highWaterMark: 4096 }),
  };
}

/** Serial ports a board could be behind: USB and Bluetooth ones, by the names systems give them. */
export async function listBoardPaths(): Promise<string[]> {
  const ports = await SerialPort.list();
  return ports.map(({ path }) => path).filter((path) => /usb|acm|^com/i.test(path));
}
