import { existsSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { Duplex } from 'node:stream';
import sirv from 'sirv';
import { type WebSocket, WebSocketServer } from 'ws';
import { Fault } from '#core/fault/fault.ts';
import { keepAlive, USUAL_SILENT_AFTER_S } from './heartbeat.ts';
import { PROGRAM_NAME } from './program.ts';

/** Only this machine, until pairing exists. */
const LOOPBACK = '127.0.0.1';
const MOST_DEVICES = 8;
const MOST_SCREENS = 32;
/** Over the messages' own limits, so that a large one is refused with a code and the link lives on. */
const MOST_PAYLOAD_BYTES = 1024 * 1024;
/** Only scripts, styles and fonts of our own; `style` attributes may stand in the page's own markup. */
const CONTENT_SECURITY_POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; style-src-attr 'unsafe-inline'; " +
  "img-src 'self' data:; font-src 'self'; manifest-src 'self'; base-uri 'none'; " +
  "form-action 'none'; frame-ancestors 'none'; connect-src 'self'";
const HEADERS: Readonly<Record<string, string>> = {
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

export interface ServerSettings {
  /** 0: any free port. */
  readonly port: number;
  readonly version: string;
  readonly screenFolder: string;
  /** Figures `/health` gives beside the program's name. */
  readonly health?: () => object;
  /** Seconds after which a silent connection is given up. */
  readonly silentAfterS?: number;
  readonly onDevice: (socket: WebSocket) => void;
  readonly onScreen: (socket: WebSocket) => void;
}

export interface RunningServer {
  readonly port: number;
  close(): Promise<void>;
}

/** Serves the screen, `/health`, and the two sockets, to this machine and pages of its own only. */
export async function startServer(settings: ServerSettings): Promise<RunningServer> {
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: MOST_PAYLOAD_BYTES,
    perMessageDeflate: false,
  });
  const counts = { device: 0, screen: 0 };
  const server = createServer(answerer(settings));
  server.headersTimeout = 10_000;
  server.requestTimeout = 30_000;
  server.maxConnections = 200;
  server.on('upgrade', (request, socket, head) => {
    const refusal = upgradeRefusal(request, portOf(server), counts);
    if (refusal !== null) {
      refuseUpgrade(socket, refusal);
      return;
    }
    const kind = pathOf(request) === '/device' ? 'device' : 'screen';
    sockets.handleUpgrade(request, socket, head, (opened) => {
      counts[kind] += 1;
      opened.once('close', () => {
        counts[kind] -= 1;
      });
      // A broken frame closes the socket by itself; there is nothing more to do about it here.
      opened.on('error', () => {});
      keepAlive(opened, settings.silentAfterS ?? USUAL_SILENT_AFTER_S);
      (kind === 'device' ? settings.onDevice : settings.onScreen)(opened);
    });
  });
  await listening(server, settings.port);
  return { port: portOf(server), close: () => closed(server, sockets) };
}

function answerer(settings: ServerSettings) {
  const files = existsSync(settings.screenFolder)
    ? sirv(settings.screenFolder, { single: false, dotfiles: false, etag: true, maxAge: 0 })
    : null;
  return (request: IncomingMessage, response: ServerResponse): void => {
    for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
    // Older browsers do not count a WebSocket of the same place as 'self'.
    response.setHeader(
      'Content-Security-Policy',
      `${CONTENT_SECURITY_POLICY} ws://127.0.0.1:${request.socket.localPort} ws://localhost:${request.socket.localPort}`,
    );
    if (!isOwnHost(request.headers.host, request.socket.localPort)) {
      plain(response, 403, 'This address is not known here.');
    } else if (request.method !== 'GET' && request.method !== 'HEAD') {
      plain(response, 405, 'Only reading.');
    } else if (pathOf(request) === '/health') {
      response.setHeader('Content-Type', 'application/json');
      response.setHeader('Cache-Control', 'no-store');
      const { version, health } = settings;
      response.end(JSON.stringify({ program: PROGRAM_NAME, version, ...health?.() }));
    } else if (files === null) plain(response, 503, 'The screen is not built.');
    else files(request, response, () => plain(response, 404, 'There is no such page.'));
  };
}

/** [status, reason] an upgrade is refused with, or null. */
function upgradeRefusal(
  request: IncomingMessage,
  port: number,
  counts: { device: number; screen: number },
): string | null {
  const path = pathOf(request);
  const origin = request.headers.origin;
  if (path !== '/device' && path !== '/screen') return '404 Not Found';
  if (!isOwnHost(request.headers.host, port)) return '403 Forbidden';
  // A page always says where it is from: another's page may not reach in, and no page is a device.
  if (origin !== undefined && (path === '/device' || !isOwnOrigin(origin, port)))
    return '403 Forbidden';
  if (path === '/device' && counts.device >= MOST_DEVICES) return '503 Service Unavailable';
  if (path === '/screen' && counts.screen >= MOST_SCREENS) return '503 Service Unavailable';
  return null;
}

function refuseUpgrade(socket: Duplex, status: string): void {
  socket.on('error', () => {});
  socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
}

function isOwnHost(host: string | undefined, port: number | undefined): boolean {
  return (
    host === `127.0.0.1:${port}` ||
    host === `localhost:${port}` ||
    (port === 80 && host === 'localhost')
  );
}

function isOwnOrigin(origin: string, port: number): boolean {
  return origin.startsWith('http://') && isOwnHost(origin.slice('http://'.length), port);
}

function pathOf(request: IncomingMessage): string {
  const url = request.url ?? '/';
  const query = url.indexOf('?');
  return query < 0 ? url : url.slice(0, query);
}

function plain(response: ServerResponse, status: number, text: string): void {
  response.statusCode = status;
  response.setHeader('Content-Type', 'text/plain; charset=utf-8');
  response.end(`${text}\n`);
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === 'object' && address !== null ? address.port : 0;
}

function listening(server: Server, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const failed = (error: NodeJS.ErrnoException) => {
      reject(
        error.code === 'EADDRINUSE' ? new Fault('port-taken', `${port}`, error.message) : error,
      );
    };
    server.once('error', failed);
    server.listen({ port, host: LOOPBACK, exclusive: true }, () => {
      server.off('error', failed);
      resolve();
    });
  });
}

function closed(server: Server, sockets: WebSocketServer): Promise<void> {
  for (const socket of sockets.clients) socket.terminate();
  server.closeAllConnections();
  return new Promise((resolve) => {
    server.close(() => resolve());
  });
}
