import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import { join } from 'node:path';

/** Starts one of the built programs; its output is kept for when something goes wrong. */
export function startProgram(
  name: 'receiver' | 'device' | 'soak-station',
  args: readonly string[],
  nodeArgs: readonly string[] = [],
): Program {
  const folder = process.env['HEELWRIGHT_PROGRAMS'];
  if (folder === undefined) throw new Error('the programs were not built');
  const child = spawn(process.execPath, [...nodeArgs, join(folder, `${name}.mjs`), ...args], {
    // Only a program of the tests is spoken to; ours are started as in use.
    stdio: ['ignore', 'pipe', 'pipe', name === 'soak-station' ? 'ipc' : 'ignore'],
  });
  return new Program(child);
}

export class Program {
  readonly child: ChildProcess;
  said = '';

  constructor(child: ChildProcess) {
    this.child = child;
    const hear = (bytes: Buffer) => {
      this.said = (this.said + bytes.toString('utf8')).slice(-200_000);
    };
    child.stdout?.on('data', hear);
    child.stderr?.on('data', hear);
  }

  /** Resolves with the first match of what it says. */
  async says(pattern: RegExp, withinMs = 20_000): Promise<RegExpExecArray> {
    const endMs = Date.now() + withinMs;
    for (;;) {
      const match = pattern.exec(this.said);
      if (match !== null) return match;
      if (Date.now() > endMs || this.child.exitCode !== null)
        throw new Error(`it did not say ${pattern}, but: ${this.said}`);
      await pause(20);
    }
  }

  /** As the power cord would; resolves when the system has taken it away. */
  async kill(): Promise<void> {
    if (this.child.exitCode !== null || this.child.signalCode !== null) return;
    const gone = once(this.child, 'exit');
    this.child.kill('SIGKILL');
    await gone;
  }

  /** Asks it to end; resolves with its exit code. */
  async stop(): Promise<number | null> {
    if (this.child.exitCode === null && this.child.signalCode === null) {
      const gone = once(this.child, 'exit');
      this.child.kill('SIGTERM');
      await gone;
    }
    return this.child.exitCode;
  }
}

export function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

/** Resolves when the condition holds; throws with `what` when it does not in time. */
export async function until(what: string, holds: () => boolean, withinMs = 30_000): Promise<void> {
  const endMs = Date.now() + withinMs;
  while (!holds()) {
    if (Date.now() > endMs) throw new Error(`${what}: not within ${withinMs} ms`);
    await pause(20);
  }
}

/** A port nobody listens on now. */
export async function freePort(): Promise<number> {
  const server = createServer();
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  server.close();
  await once(server, 'close');
  return typeof address === 'object' && address !== null ? address.port : 0;
}
