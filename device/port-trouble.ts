import { readdir, readFile, readlink, stat } from 'node:fs/promises';
import { Fault } from '#core/fault/fault.ts';

/** Processes looked through for who holds a port. */
const MOST_PROCESSES = 5000;

/**
 * Why a port cannot be opened, from what the system said: no permission (with the group that has
 * it), held by another program, or anything else.
 */
export async function portTrouble(port: string, said: string): Promise<Fault> {
  // Windows denies access to a port that another program has open.
  if (/permission denied|EACCES|EPERM/i.test(said)) {
    return new Fault('port-permission', port, await permissionWords(port));
  }
  if (/cannot lock|access denied|temporarily unavailable|EBUSY|resource busy|in use/i.test(said)) {
    return new Fault('port-in-use', port, said);
  }
  return new Fault('port-not-open', port, said);
}

/** `mode 660, group dialout (gid 20); this user is in groups 1000, 27`. */
async function permissionWords(port: string): Promise<string> {
  try {
    const { mode, gid } = await stat(port);
    const groups = (process.getgroups?.() ?? []).join(', ');
    const name = groupName(await readFile('/etc/group', 'utf8').catch(() => ''), gid);
    const group = name === null ? `gid ${gid}` : `${name} (gid ${gid})`;
    return `mode ${(mode & 0o777).toString(8)}, group ${group}; this user is in groups ${groups}`;
  } catch (error) {
    return (error as Error).message;
  }
}

/** Name of a group by its number, out of the text of /etc/group. */
export function groupName(groupFile: string, gid: number): string | null {
  const line = groupFile.split('\n').find((one) => one.split(':')[2] === String(gid));
  return line?.split(':')[0] ?? null;
}

/**
 * Programs of this user (of everybody's, for root) that have the port open; empty where the system
 * does not tell. Looks through all processes: for a person who asks, not for every try.
 */
export async function holdersOf(port: string): Promise<string[]> {
  if (process.platform !== 'linux') return [];
  const device = await stat(port).catch(() => null);
  const ids = (await readdir('/proc').catch(() => [])).filter((name) => /^\d+$/.test(name));
  const holders: string[] = [];
  for (const id of ids.slice(0, MOST_PROCESSES)) {
    if (Number(id) === process.pid || device === null) continue;
    if (await holds(id, device.rdev)) holders.push(`${await programName(id)} (process ${id})`);
  }
  return holders;
}

async function holds(id: string, rdev: number): Promise<boolean> {
  const files = await readdir(`/proc/${id}/fd`).catch(() => []);
  for (const file of files) {
    const link = `/proc/${id}/fd/${file}`;
    const target = await readlink(link).catch(() => '');
    if (!target.startsWith('/dev/')) continue;
    const open = await stat(link).catch(() => null);
    if (open?.isCharacterDevice() === true && open.rdev === rdev) return true;
  }
  return false;
}

async function programName(id: string): Promise<string> {
  const name = await readFile(`/proc/${id}/comm`, 'utf8').catch(() => 'a program');
  return name.trim();
}
