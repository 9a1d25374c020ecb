/** The part of firmata-io 2.3.0 that is used here; the package has no types of its own. */
declare module 'firmata-io' {
  import type { EventEmitter } from 'node:events';

  interface FirmataTransport extends EventEmitter {
    write(bytes: Uint8Array, done?: (error?: Error | null) => void): boolean;
  }

  class Firmata extends EventEmitter {
    constructor(
      transport: FirmataTransport,
      options?: { reportVersionTimeout?: number; samplingInterval?: number },
    );
    readonly isReady: boolean;
    readonly firmware: { name?: string; version?: { major: number; minor: number } };
    i2cConfig(options: { delay?: number; address?: number; settings?: { stopTX: boolean } }): this;
    i2cWrite(address: number, bytes: number[]): this;
    i2cReadOnce(
      address: number,
      register: number,
      count: number,
      reply: (bytes: number[]) => void,
    ): this;
    i2cReadOnce(address: number, count: number, reply: (bytes: number[]) => void): this;
    i2cRead(address: number, count: number, reply: (bytes: number[]) => void): this;
    i2cRead(
      address: number,
      register: number,
      count: number,
      reply: (bytes: number[]) => void,
    ): this;
    i2cStop(address: number): void;
    setSamplingInterval(intervalMs: number): void;
    /** The handler is shared by all boards of the process; `this` is the board it came from. */
    sysexResponse(command: number, handler: (this: Firmata, data: number[]) => void): this;
    sysexCommand(message: number[]): this;
  }

  const firmataIo: { Firmata: typeof Firmata };
  export default firmataIo;
  export type { Firmata, FirmataTransport };
}
