import { EventEmitter } from 'node:events';
import type { Firmata } from 'firmata-io';

type Reply = (bytes: number[]) => void;
type ReadArguments =
  | [register: number, count: number, reply: Reply]
  | [count: number, reply: Reply];

function readOf(rest: ReadArguments) {
  return rest.length === 3
    ? { register: rest[0], count: rest[1], reply: rest[2] }
    : { register: null, count: rest[0], reply: rest[1] };
}

/** Stands for a board behind firmata-io: notes what is asked and answers when told. */
export class FakeFirmata extends EventEmitter {
  readonly isReady = true;
  readonly firmware = { name: 'StandardFirmata.ino', version: { major: 2, minor: 5 } };
  readonly asked: unknown[] = [];

  i2cConfig(options: { address?: number }): this {
    if (options.address !== undefined) this.asked.push(['config', options.address]);
    return this;
  }
  i2cWrite(address: number, bytes: number[]): this {
    this.asked.push(['write', address, ...bytes]);
    return this;
  }
  i2cReadOnce(address: number, ...rest: ReadArguments) {
    const { register, count, reply } = readOf(rest);
    this.asked.push(['read', address, register, count]);
    this.once(`I2C-reply-${address}-${register ?? 0}`, reply);
    return this;
  }
  i2cRead(address: number, ...rest: ReadArguments) {
    const { register, count, reply } = readOf(rest);
    this.asked.push(['continuous', address, register, count]);
    this.on(`I2C-reply-${address}-${register ?? 0}`, reply);
    return this;
  }
  i2cStop(address: number): void {
    this.asked.push(['stop', address]);
  }
  setSamplingInterval(intervalMs: number): void {
    this.asked.push(['interval', intervalMs]);
  }
  sysexResponse(): this {
    return this;
  }
  sysexCommand(message: number[]): this {
    this.asked.push(['sysex', ...message]);
    return this;
  }
  answer(address: number, register: number, bytes: number[]): void {
    this.emit(`I2C-reply-${address}-${register}`, bytes);
  }
  get io(): Firmata {
    return this;
  }
}
