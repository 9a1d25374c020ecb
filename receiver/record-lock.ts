import { rmSync } from 'node:fs';
import { connect, createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Fault } from '#core/fault/fault.ts';

/**
 * One writer a record: whoever listens on a local socket named by the record's id. The system
 * closes it when the process dies, however it dies, so no stale lock is ever left to clear.
 */
export interface RecordLock {
  release(): Promise<void>;
}

/** Throws `record-locked` when another process (or this one) holds it. */
export async function lockRecord(recordId: string): Promise<RecordLock> {
  const path = lockPath(recordId);
  const onDisk = process.platform !== 'win32' && process.platform !== 'linux';
  let server = await listening(path);
  if (server === null && onDisk && !(await answers(path))) {
    // A socket file outlives its process; nobody answers, so nobody holds it.
    rmSync(path, { force: true });
    server = await listening(path);
  }
  if (server === null) throw new Fault('record-locked', recordId, 'another process writes it');
  server.unref();
  const held = server;
  return { release: () => new Promise((done) => held.close(() => done())) };
}

function lockPath(recordId: string): string {
  const name = `heelwright-record-${recordId.replace(/[^0-9A-Za-z-]/g, '_')}`;
  if (process.platform === 'win32') return `\\\\.\\pipe\\${name}`;
  // Linux: a name in the kernel's own table and no file at all (a leading NUL asks for it).
  if (process.platform === 'linux') return `\0${name}`;
  return join(tmpdir(), `${name}.lock`);
}

/** A server on the path, or null when the path is taken. */
function listening(path: string): Promise<Server | null> {
  return new Promise((resolve, reject) => {
    const server = createServer((socket) => socket.destroy());
    server.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE' || error.code === 'EACCES') resolve(null);
      else reject(error);
    });
    server.listen({ path, exclusive: true }, () => resolve(server));
  });
}

function answers(path: string): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect({ path });
    socket.once('connect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });
}
