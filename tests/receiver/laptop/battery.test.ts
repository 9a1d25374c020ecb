import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { linuxBattery, pmsetBattery, windowsBattery } from '#receiver/laptop/battery.ts';

const folder = mkdtempSync(join(tmpdir(), 'battery-'));
afterAll(() => rmSync(folder, { recursive: true }));

function supply(name: string, files: Readonly<Record<string, string>>): void {
  mkdirSync(join(folder, name));
  for (const [file, text] of Object.entries(files))
    writeFileSync(join(folder, name, file), `${text}\n`);
}

describe('the battery as each system tells it', () => {
  it('on Linux: the emptiest battery, not the mains and not a mouse', async () => {
    supply('AC', { type: 'Mains' });
    supply('BAT0', { type: 'Battery', capacity: '80', status: 'Not charging' });
    supply('BAT1', { type: 'Battery', capacity: '31', status: 'Discharging' });
    supply('hid0', { type: 'Battery', scope: 'Device', capacity: '3', status: 'Discharging' });
    expect(await linuxBattery(folder)).toEqual({ chargePercent: 31, draining: true });
    expect(await linuxBattery(join(folder, 'none'))).toBeNull();
  });

  it('on macOS and Windows, by made-up answers in the form the tools have', () => {
    const line = ' -InternalBattery-0 (id=1)\t57%; discharging; 3:10 remaining present: true';
    expect(pmsetBattery(`Now drawing from 'Battery Power'\n${line}\n`)).toEqual({
      chargePercent: 57,
      draining: true,
    });
    expect(pmsetBattery("Now drawing from 'AC Power'\n")).toBeNull();
    expect(windowsBattery('41 1\r\n')).toEqual({ chargePercent: 41, draining: true });
    expect(windowsBattery('97 2\r\n')).toEqual({ chargePercent: 97, draining: false });
    expect(windowsBattery(null)).toBeNull();
  });
});
