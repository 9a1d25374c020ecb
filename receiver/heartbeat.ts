import type { WebSocket } from 'ws';

/** Wall time on purpose: a network does not run at the pace of a demo. */
const BEAT_MS = 10_000;
const PROBE_MS = 2_000;
const probes = new WeakMap<WebSocket, () => void>();

/** Pings a socket and ends it when two beats go unanswered, for a half-open one never says so itself. */
export function keepAlive(socket: WebSocket): void {
  let unanswered = 0;
  const beat = () => {
    if (unanswered >= 2) socket.terminate();
    else {
      unanswered += 1;
      socket.ping();
    }
  };
  const timer = setInterval(beat, BEAT_MS);
  timer.unref();
  const alive = () => {
    unanswered = 0;
  };
  socket.on('pong', alive);
  socket.on('message', alive);
  socket.once('close', () => clearInterval(timer));
  probes.set(socket, () => {
    if (socket.readyState === socket.OPEN) socket.ping();
    unanswered = 1;
    setTimeout(() => {
      if (unanswered > 0) socket.terminate();
    }, PROBE_MS).unref();
  });
}

/** Ends a socket unless it answers within two seconds; for when someone else claims its place. */
export function probeSocket(socket: WebSocket): void {
  probes.get(socket)?.();
}
