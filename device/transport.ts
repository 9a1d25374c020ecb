import type { EventEmitter } from 'node:events';
import { readdir } from 'node:fs/promises';
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

/** A serial line as an instrument's maker set it up. */
export interface LineFormat {
  readonly baudRate: number;
  readonly dataBits: 7 | 8;
  readonly parity: 'none' | 'even' | 'odd';
  readonly stopBits: 1 | 2;
}

export function serialLinePort(path: string, format: LineFormat): BoardPort {
  const { baudRate, dataBits, parity, stopBits } = format;
  return {
    name: path,
    baudRates: [baudRate],
    open: () => new SerialPort({ path, baudRate, dataBits, parity, stopBits, highWaterMark: 4096 }),
  };
}

/**
 * Serial ports a board could be behind: USB and Bluetooth ones, by the names systems give them. On
 * Linux the folder of devices is read: serialport asks a program there (udevadm) that a small
 * system may not have, and its absence cannot be caught.
 */
export async function listBoardPaths(): Promise<string[]> {
  const paths =
    process.platform === 'linux'
      ? (await readdir('/dev')).map((name) => `/dev/${name}`)
      : (await SerialPort.list()).map(({ path }) => path);
  return paths.filter((path) => /tty(usb|acm)|cu\.usb|^com\d/i.test(path)).sort();
}
