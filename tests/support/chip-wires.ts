import { Fault } from '#core/fault/fault.ts';
import type { Bus } from '#device/bus/bus.ts';
import { addressText } from '#device/bus/bus.ts';
import type { I2cBus } from '#device/emulated/i2c.ts';

/** The wires to emulated chips by hand, without processor or firmware: a driver's bus. */
export function wiresOf(bus: I2cBus): Bus {
  const send = (address: number, bytes: readonly number[]): void => {
    bus.start();
    if (!bus.address(address, true)) {
      bus.stop();
      throw new Fault('bus-no-answer', addressText(address), 'not acknowledged');
    }
    for (const byte of bytes) bus.write(byte);
  };
  return {
    async read(address, register, count) {
      if (register !== null) send(address, [register]);
      bus.start();
      if (!bus.address(address, false)) {
        bus.stop();
        throw new Fault('bus-no-answer', addressText(address), 'not acknowledged');
      }
      const bytes = Uint8Array.from({ length: count }, () => bus.read());
      bus.stop();
      return bytes;
    },
    async write(address, register, bytes) {
      send(address, [register, ...bytes]);
      bus.stop();
    },
  };
}
