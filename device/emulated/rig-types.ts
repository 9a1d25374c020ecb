import type { EventEmitter } from 'node:events';
import type { Clock } from '#core/time/clock.ts';
import type { SimulatedWorld, WorldCommand } from './simulated-world.ts';

/**
 * The rig: two emulated boards in one simulated world, fore an inclinometer, aft an
 * inclinometer and the level tube. Two rigs have this interface: `startRig` (rig.ts) follows
 * the wall at a pace, each board in its own worker thread; `startVirtualRig` (virtual-rig.ts)
 * stands still until its caller advances it.
 */
export type BoardName = 'fore' | 'aft';
export const BOARD_NAMES: readonly BoardName[] = ['fore', 'aft'];

/** Chips: both boards carry an IIS2ICLX at 0x6A; aft also an ADS1115 at 0x48, port leg on AIN0, starboard leg on AIN1. */
export const INSTRUMENT_OF_CHIP = {
  fore: { iis2iclx: 'fore' },
  aft: { iis2iclx: 'aft', ads1115: 'tube' },
} as const;

export const SLOWEST_PACE = 1;
export const FASTEST_PACE = 50;
/** Ceramic resonators are sold at +-5000 ppm. */
export const MOST_CLOCK_ERROR_PPM = 5000;

/**
 * Bytes to and from a board. An answer takes one to two of the rig's slices: up to about 10 ms of
 * wall time, that is 10 ms times the pace of simulated time; a driver's deadline must bear that.
 * This is what firmata-io asks of a serial port and what serialport 13 offers.
 */
export interface Transport extends EventEmitter {
  // Events: 'open' (), 'data' (Buffer), 'close' (Error with disconnected=true when the board was
  // unplugged, otherwise nothing), 'error' (Error; after it the transport is never used again).
  readonly isOpen: boolean;
  /** Throws nothing: a write to a closed transport hands an Error to the callback, or is emitted as 'error' without one. */
  write(bytes: Uint8Array | readonly number[], done?: (error?: Error | null) => void): boolean;
  /** 'close' follows. A second call only calls back with an Error. */
  close(done?: (error?: Error | null) => void): void;
}

export interface RigBoard {
  readonly name: BoardName;
  /**
   * Opens the board's port. As on a real board the opening resets it (DTR). 'open' comes after
   * the caller has had the transport, never at once. Unplugged, or still open: 'error' comes instead.
   */
  open(): Transport;
}

/** What can go wrong on a board's I2C bus, from the time it is set until it is set again. */
export type BusFault =
  | { kind: 'none' }
  /** The chip at this address does not acknowledge. */
  | { kind: 'no-answer'; address: number }
  /** A chip holds SDA low until it has seen this many clock pulses (9 is always enough; Infinity: a short). */
  | { kind: 'data-held'; pulses: number }
  /** SCL is held low. */
  | { kind: 'clock-held' }
  /** The chip at this address goes on giving the bytes it gave last. */
  | { kind: 'stuck-value'; address: number };

/** Changes of the simulated world. */
export type RigCommand = WorldCommand;

export interface RigSettings {
  /** One seed for everything: world, chips, clock errors unless given. */
  readonly seed: number;
  /** Simulated seconds a wall second, 1 to 50. Not used by the virtual rig. */
  readonly pace: number;
  /** Parts per million the board's clock is fast; drawn from the seed (within 5000) where not given. */
  readonly clockErrorPpm?: Partial<Record<BoardName, number>>;
  /** EEPROM images (1024 bytes) kept from an earlier run, so that boards keep their identity; a board without one is factory new. */
  readonly eeproms?: Partial<Record<BoardName, Uint8Array>>;
  /** Called after a board has changed its EEPROM (identity, reset counter), with the whole image to keep. */
  readonly onEeprom?: (name: BoardName, image: Uint8Array) => void;
  /** Called when a worker thread dies; the rig has stopped by then. Without it the error is thrown. */
  readonly onFailure?: (error: Error) => void;
  /** The machine's own clock: paces the rig (not the virtual one), and its wall reading at the start is simulated second 0. */
  readonly wall: Clock;
}

export interface RigStatus {
  /** Simulated seconds since the start: the same as clock.monotonicS(). */
  readonly worldTimeS: number;
  readonly paceWanted: number;
  /** Simulated seconds a wall second over the last wall second; lower than wanted when the machine cannot hold it. */
  readonly paceHeld: number;
  readonly boards: readonly BoardStatus[];
}

export interface BoardStatus {
  readonly name: BoardName;
  readonly plugged: boolean;
  readonly open: boolean;
  readonly clockErrorPpm: number;
}

export interface Rig {
  readonly boards: readonly RigBoard[];
  /** Station clock: simulated time, moving in steps of a few wall milliseconds times the pace; while a 'data' event is told it stands at the moment the last of its bytes left the board. monotonicS() is 0 at the start; wallMs() counts on from the wall's reading at the start. */
  readonly clock: Clock;
  /** From 1 to 50, at any time. */
  setPace(pace: number): void;
  /** Changes the world in every thread at the same simulated second; that second is returned. */
  command(command: RigCommand): number;
  disturbBus(name: BoardName, fault: BusFault): void;
  /** Pulls the cable: an open transport closes with a disconnected Error, power is lost. */
  unplug(name: BoardName): void;
  replug(name: BoardName): void;
  status(): RigStatus;
  /** What the simulated vessel is doing now, and the truth about her. */
  vessel(): ReturnType<SimulatedWorld['status']>;
  /** Open transports close. */
  stop(): Promise<void>;
}

/** The rig whose time its caller makes pass. */
export interface VirtualRig extends Rig {
  /**
   * Lets this many simulated seconds pass, in slices of at most 20 ms, both boards in step;
   * between slices pending microtasks and immediates run, so that code waiting for bytes answers.
   */
  advance(seconds: number): Promise<void>;
}
