import type { WebSocket } from 'ws';

/** Half-open connections are given up within this many seconds; also what a person may ask for. */
export const USUAL_SILENT_AFTER_S = 30;
export const SILENT_AFTER_BOUNDS_S = { least: 2, most: 120 };
/** A socket is asked twice in vain before the third beat ends it. */
const BEATS = 3;
const PROBE_MS = 2_000;
const probes = new WeakMap<WebSocket, () => void>();

/**
 * Pings a socket and ends it when it has been silent for `silentAfterS`, for a half-open one never
 * says so itself. Wall time on purpose: a network does not run at the pace of a demo.
 */
export function keepAlive(socket: WebSocket, silentAfterS: number): void {
  let unanswered = 0;
  const beat = () => {
    if (unanswered >= BEATS - 1) socket.terminate();
    else {
      unanswered += 1;
      socket.ping();
    }
  };
  const timer = setInterval(beat, (silentAfterS * 1000) / BEATS);
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
