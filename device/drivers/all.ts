import { abp2 } from './abp2.ts';
import { ads1115 } from './ads1115.ts';
import { adxl355 } from './adxl355.ts';
import type { Driver } from './driver.ts';
import { iis2iclx } from './iis2iclx.ts';
import { lsm6dso } from './lsm6dso.ts';
import { mpx5010 } from './mpx5010.ts';

/** Every chip this program can read; tests/device/drivers/every-driver.test.ts walks it. */
export const DRIVERS: readonly Driver[] = [iis2iclx, adxl355, lsm6dso, ads1115, mpx5010, abp2];

export function driverOf(part: string): Driver | undefined {
  return DRIVERS.find((driver) => driver.part === part);
}
