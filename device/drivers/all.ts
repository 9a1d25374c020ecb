import { ads1115 } from './ads1115.ts';
import type { Driver } from './driver.ts';
import { iis2iclx } from './iis2iclx.ts';

/** Every chip this program can read; tests/device/drivers/every-driver.test.ts walks it. */
export const DRIVERS: readonly Driver[] = [iis2iclx, ads1115];

export function driverOf(part: string): Driver | undefined {
  return DRIVERS.find((driver) => driver.part === part);
}
