import { readFileSync } from 'node:fs';

const TICKS_PER_SECOND = 100;

/** Processor seconds of a process's main thread alone, in steps of 10 ms; null where the system does not tell (Linux does). */
export function mainThreadS(pid: number | undefined): number | null {
  if (process.platform !== 'linux' || pid === undefined) return null;
  const fields = readFileSync(`/proc/${pid}/task/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
  return (Number(fields[11]) + Number(fields[12])) / TICKS_PER_SECOND;
}
