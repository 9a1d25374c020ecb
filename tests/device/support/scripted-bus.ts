import { expect } from 'vitest';
import { Fault, type FaultCode } from '#core/fault/fault.ts';
import type { Bus } from '#device/bus/bus.ts';
import type { Chip } from '#device/drivers/driver.ts';

/** One exchange on the bus: what is sent, and what is answered. */
export type Exchange =
  | { readonly write: readonly [register: number, ...bytes: number[]] }
  | {
      readonly read: readonly [register: number | null, count: number];
      readonly answer: readonly number[] | FaultCode;
    }
  | { readonly waitS: number };

/**
 * A chip that follows a script: anything else than the next exchange fails at once, and `done`
 * fails when exchanges are left over.
 */
export function scriptedChip(address: number, script: readonly Exchange[]) {
  const left = [...script];
  function next(happened: string): Exchange {
    const exchange = left.shift();
    if (exchange === undefined) throw new Error(`after the end of the script: ${happened}`);
    return exchange;
  }
  const bus: Bus = {
    async read(at, register, count) {
      const happened = { address: at, read: [register, count] };
      const exchange = next(JSON.stringify(happened));
      if (!('read' in exchange))
        throw new Error(`${JSON.stringify(happened)} for ${JSON.stringify(exchange)}`);
      expect(happened).toEqual({ address, read: exchange.read });
      if (typeof exchange.answer === 'string')
        throw new Fault(exchange.answer, 'script', 'told to');
      return Uint8Array.from(exchange.answer);
    },
    async write(at, register, bytes) {
      const happened = { address: at, write: [register, ...bytes] };
      const exchange = next(JSON.stringify(happened));
      if (!('write' in exchange))
        throw new Error(`${JSON.stringify(happened)} for ${JSON.stringify(exchange)}`);
      expect(happened).toEqual({ address, write: exchange.write });
    },
  };
  const chip: Chip = {
    bus,
    address,
    where: 'scripted chip',
    async waitS(seconds) {
      const exchange = next(`a wait of ${seconds} s`);
      expect({ waitS: seconds }).toEqual(exchange);
    },
  };
  return { chip, done: () => expect(left).toEqual([]) };
}

/** The code a promise is refused with. */
export async function faultOf(promise: Promise<unknown>): Promise<string> {
  try {
    await promise;
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
  return 'no fault';
}
