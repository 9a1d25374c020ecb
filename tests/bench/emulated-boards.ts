import { clearMessage, startMessage, stepMessage } from '#device/bus/scan-message.ts';
import { ads1115 } from '#device/drivers/ads1115.ts';
import { iis2iclx } from '#device/drivers/iis2iclx.ts';
import { startRig } from '#device/emulated/rig.ts';
import type { Rig, Transport } from '#device/emulated/rig-types.ts';
import { startVirtualRig } from '#device/emulated/virtual-rig.ts';

/** Emulated seconds a wall second, both boards scanning what the drivers scan. */
export interface EmulatedSpeed {
  readonly periodUs: number;
  /** Both boards in one thread, virtual time. */
  readonly oneThread: number;
  /** Each in its own thread, the fastest pace asked for: 50 is all there is. */
  readonly twoThreads: number;
}

const VIRTUAL_S = 60;
const PACED_WALL_MS = 4000;

const wall = { monotonicS: () => performance.now() / 1000, wallMs: () => 0 };

export async function measureEmulatedSpeed(periodUs: number): Promise<EmulatedSpeed> {
  const virtual = startVirtualRig({ seed: 1, wall });
  const ports = open(virtual);
  await virtual.advance(1);
  begin(ports, periodUs);
  await virtual.advance(5);
  const fromS = wall.monotonicS();
  await virtual.advance(VIRTUAL_S);
  const oneThread = VIRTUAL_S / (wall.monotonicS() - fromS);
  await virtual.stop();

  const paced = startRig({ seed: 1, wall, pace: 50 });
  const pacedPorts = open(paced);
  await waitMs(1500);
  begin(pacedPorts, periodUs);
  await waitMs(PACED_WALL_MS);
  const twoThreads = paced.status().paceHeld;
  await paced.stop();
  return { periodUs, oneThread, twoThreads };
}

function open(rig: Rig): Transport[] {
  return rig.boards.map((board) => board.open());
}

function begin(ports: readonly Transport[], periodUs: number): void {
  const chips = [
    [{ address: 0x6a, driver: iis2iclx }],
    [
      { address: 0x6a, driver: iis2iclx },
      { address: 0x48, driver: ads1115 },
    ],
  ];
  ports.forEach((port, index) => {
    const sysex = (...bytes: number[]): void => {
      port.write([0xf0, ...bytes, 0xf7]);
    };
    sysex(0x78, 0, 0);
    // CTRL1_XL: 104 Hz, LPF2.
    sysex(0x76, 0x6a, 0, 0x10, 0, 0x42, 0);
    sysex(...clearMessage());
    for (const { address, driver } of chips[index]!) {
      for (const step of driver.steps(periodUs)) sysex(...stepMessage({ address, ...step }));
    }
    sysex(...startMessage(periodUs));
  });
}

function waitMs(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
