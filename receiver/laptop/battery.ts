import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { answerOf } from './child-answer.ts';
import { type Finding, isBad } from './matter.ts';

/** Share of the charge left under which a state is shown, and from which it is well again. Ours: about
 * half an hour to an hour of a working laptop, enough to find a cable. */
export const BATTERY_BOUNDS = { badUnder: 20, wellFrom: 25 };
const POWER_SUPPLIES = '/sys/class/power_supply';
const MOST_SUPPLIES = 16;

/** Charge of the emptiest battery, 0 to 100, and whether it is being drained. Null: no battery, or not told. */
export interface Battery {
  readonly chargePercent: number;
  readonly draining: boolean;
}
export type BatteryReader = () => Promise<Battery | null>;

export function batteryFinding(battery: Battery | null, was: boolean): Finding {
  const well = { matter: 'battery', station: null, severity: 'well' } as const;
  if (battery === null) return { ...well, found: 'no battery is told of' };
  const found = `${battery.chargePercent} % left`;
  if (!battery.draining) return { ...well, found: `${found}, on the mains` };
  if (!isBad(battery.chargePercent, was, BATTERY_BOUNDS)) return { ...well, found };
  return { ...well, severity: 'notice', found: `${found} and no mains` };
}

/** How this system tells its battery. */
export function batteryReader(platform: NodeJS.Platform): BatteryReader {
  if (platform === 'linux') return () => linuxBattery(POWER_SUPPLIES);
  if (platform === 'darwin')
    return async () => pmsetBattery(await answerOf('pmset', ['-g', 'batt']));
  if (platform === 'win32')
    return async () => windowsBattery(await answerOf('powershell.exe', WINDOWS));
  return async () => null;
}

/** Linux, Documentation/ABI/testing/sysfs-class-power: type, scope, capacity (percent), status. */
export async function linuxBattery(folder: string): Promise<Battery | null> {
  const batteries: Battery[] = [];
  for (const supply of (await namesIn(folder)).slice(0, MOST_SUPPLIES)) {
    const of = (file: string) => wordIn(join(folder, supply, file));
    // A mouse has a battery too, of scope Device.
    if ((await of('type')) !== 'Battery' || (await of('scope')) === 'Device') continue;
    const charge = percent(await of('capacity'));
    if (charge !== null)
      batteries.push({ chargePercent: charge, draining: (await of('status')) === 'Discharging' });
  }
  return emptiest(batteries);
}

/** macOS `pmset -g batt`, e.g. " -InternalBattery-0 (id=1)	57%; discharging; 3:10 remaining" (from memory). */
export function pmsetBattery(answer: string | null): Battery | null {
  const told = /InternalBattery[^\n]*?(\d{1,3})%; ([a-zA-Z ]+)/.exec(answer ?? '');
  const charge = percent(told?.[1] ?? null);
  return charge === null ? null : { chargePercent: charge, draining: told?.[2] === 'discharging' };
}

const WINDOWS = [
  '-NoProfile',
  '-NonInteractive',
  '-Command',
  'Get-CimInstance Win32_Battery | ForEach-Object { "$($_.EstimatedChargeRemaining) $($_.BatteryStatus)" }',
];

/** Win32_Battery: EstimatedChargeRemaining in percent; BatteryStatus 1, 4 and 5 are discharging, low, critical. */
export function windowsBattery(answer: string | null): Battery | null {
  const batteries: Battery[] = [];
  for (const [, charge, status] of (answer ?? '').matchAll(/^\s*(\d{1,3}) (\d{1,2})\s*$/gm)) {
    const chargePercent = percent(charge ?? null);
    if (chargePercent !== null)
      batteries.push({ chargePercent, draining: ['1', '4', '5'].includes(status ?? '') });
  }
  return emptiest(batteries);
}

function emptiest(batteries: readonly Battery[]): Battery | null {
  const [first] = batteries.toSorted((a, b) => a.chargePercent - b.chargePercent);
  if (first === undefined) return null;
  return { chargePercent: first.chargePercent, draining: batteries.some((one) => one.draining) };
}

function percent(word: string | null): number | null {
  const value = word === null || word === '' ? Number.NaN : Number(word);
  return value >= 0 && value <= 100 ? value : null;
}

/** Not there or not readable is an answer here: this system does not tell. */
async function namesIn(folder: string): Promise<string[]> {
  try {
    return await readdir(folder);
  } catch {
    return [];
  }
}

async function wordIn(file: string): Promise<string | null> {
  try {
    return (await readFile(file, 'utf8')).trim();
  } catch {
    return null;
  }
}
