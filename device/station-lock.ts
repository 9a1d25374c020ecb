import { createHash } from 'node:crypto';
import { chmod, rm } from 'node:fs/promises';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { Fault } from '#core/fault/fault.ts';

/** Socket paths longer than this are cut by some systems without a word (macOS: 104). */
const LONGEST_SOCKET_PATH = 100;

/**
 * Takes a data folder for this process alone. The lock is a listening local socket (on Windows a
 * named pipe), which the system lets go when the process dies, however it dies. Throws
 * `station-folder` when another process holds it. Returns the release.
 */
export async function lockStation(folder: string): Promise<() => Promise<void>> {
  const socket = socketPath(folder);
  const server = net.createServer((connection) => connection.destroy());
  try {
    await listen(server, socket);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE') {
      throw new Fault('station-folder', folder, (error as Error).message);
    }
    if (await answers(socket)) {
      throw new Fault('station-folder', folder, 'another program uses it now');
    }
    // The file of a socket stays behind when its process is killed; nobody listens there.
    await rm(socket, { force: true });
    await listen(server, socket);
  }
  // A socket is made open to all; the folder keeps others out, and this does where it is not in the folder.
  if (process.platform !== 'win32') await chmod(socket, 0o600);
  server.unref();
  return () => new Promise((resolve) => server.close(() => resolve()));
}

function socketPath(folder: string): string {
  const whole = path.resolve(folder);
  const mark = createHash('sha256').update(whole).digest('hex').slice(0, 24);
  if (process.platform === 'win32') return `\\\\.\\pipe\\heelwright-station-${mark}`;
  const inside = path.join(whole, 'station.lock');
  if (inside.length <= LONGEST_SOCKET_PATH) return inside;
  return path.join(os.tmpdir(), `heelwright-${mark}.lock`);
}

function listen(server: net.Server, socket: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(socket, () => {
      server.off('error', reject);
      resolve();
    });
  });
}

function answers(socket: string): Promise<boolean> {
  return new Promise((resolve) => {
    const connection = net.connect(socket);
    connection.once('connect', () => {
      connection.destroy();
      resolve(true);
    });
    connection.once('error', () => resolve(false));
  });
}
