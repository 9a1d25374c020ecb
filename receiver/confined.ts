import { Worker } from 'node:worker_threads';
import { Fault } from '#core/fault/fault.ts';
import { EXIT, reportFault } from './commands/common.ts';
import { MACHINE_CLOCK } from './machine-clock.ts';

/** Commands that read a file somebody else may have made. */
const OF_STRANGERS: ReadonlySet<string> = new Set([
  'verify',
  'replay',
  'reduce',
  'plan',
  'hydrostatics',
  'stability',
  'steady',
  'roll',
  'export',
  'import',
  'report',
]);
/** An eight-hour record of three boards takes a tenth of the one and a few seconds of the other. */
const MOST_MEMORY_MB = 2048;
const LONGEST_S = 900;

export function readsStrangersFile(args: readonly string[]): boolean {
  return OF_STRANGERS.has(args[0] ?? '');
}

/**
 * Runs this very command in a worker with a limit of memory and of time, so that a file made to
 * exhaust the machine ends in a fault with a code. Sets the exit code.
 */
export async function runConfined(): Promise<void> {
  const json = process.argv.includes('--json');
  const startedS = MACHINE_CLOCK.monotonicS();
  const worker = new Worker(new URL(import.meta.url), {
    argv: process.argv.slice(2),
    resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB },
  });
  const timer = setTimeout(() => void worker.terminate(), LONGEST_S * 1000);
  const failed = new Promise<Error | null>((resolve) => {
    worker.once('error', resolve);
    worker.once('exit', () => resolve(null));
  });
  const ended = new Promise<number>((resolve) => worker.once('exit', resolve));
  const [error, code] = await Promise.all([failed, ended]);
  clearTimeout(timer);
  if (error !== null) {
    if ((error as NodeJS.ErrnoException).code !== 'ERR_WORKER_OUT_OF_MEMORY') throw error;
    reportFault(new Fault('input-too-large', 'memory', `over ${MOST_MEMORY_MB} MB`), json);
    return;
  }
  if (MACHINE_CLOCK.monotonicS() - startedS >= LONGEST_S) {
    reportFault(new Fault('input-too-large', 'time', `over ${LONGEST_S} s`), json, EXIT.refused);
    return;
  }
  process.exitCode = code;
}
