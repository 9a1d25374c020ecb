import { existsSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { createServer as createTlsServer } from 'node:https';
import type { Socket } from 'node:net';
import type { Duplex } from 'node:stream';
import sirv from 'sirv';
import { type WebSocket, WebSocketServer } from 'ws';
import { Fault } from '#core/fault/fault.ts';
import { isOwnHost, ownNames } from './access/addresses.ts';
import { ConnectionLimits } from './access/connection-limits.ts';
import type { Door } from './access/entrance.ts';
import type { TlsCertificate } from './access/tls-certificate.ts';
import { isLoopback, type WayIn } from './access/way-in.ts';
import { keepAlive, USUAL_SILENT_AFTER_S } from './heartbeat.ts';
import { PROGRAM_NAME } from './program.ts';

const LOOPBACK = '127.0.0.1';
const DOCUMENT = '/document/';
const PHOTOGRAPH = '/photograph/';
const EVERYWHERE = '0.0.0.0';
/** Over the messages' own limits, so that a large one is refused with a code and the link lives on. */
const MOST_PAYLOAD_BYTES = 2 * 1024 * 1024;
/** Only scripts, styles and fonts of our own; `style` attributes may stand in the page's own markup. */
const CONTENT_SECURITY_POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; style-src-attr 'unsafe-inline'; " +
  "img-src 'self' data:; font-src 'self'; manifest-src 'self'; base-uri 'none'; " +
  "form-action 'none'; frame-ancestors 'none'; connect-src 'self'";
const HEADERS: Readonly<Record<string, string>> = {
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(self), geolocation=(), microphone=()',
};

export interface ServerSettings {
  /** 0: any free port. */
  readonly port: number;
  /** Reachable from other machines; else from this one only. */
  readonly lan: boolean;
  /** Serves TLS as well, one port up. */
  readonly tls: TlsCertificate | null;
  readonly version: string;
  readonly screenFolder: string;
  /** Figures `/health` gives beside the program's name. */
  readonly health?: () => object;
  /** Seconds after which a silent connection is given up. */
  readonly silentAfterS?: number;
  /** Answers who asks for a copy of the record at `/record`. */
  readonly recordCopy?: (request: IncomingMessage, response: ServerResponse, way: WayIn) => void;
  /** Answers who asks for a document of the record at `/document/NAME`. */
  readonly document?: (
    request: IncomingMessage,
    response: ServerResponse,
    way: WayIn,
    name: string,
  ) => void;
  /** Answers who asks for a photograph at `/photograph/`, by the number of its line. */
  readonly photograph?: (
    request: IncomingMessage,
    response: ServerResponse,
    way: WayIn,
    line: string,
  ) => void;
  /** A socket that has not said who it is. */
  readonly onSocket: (socket: WebSocket, wire: Socket, way: WayIn, door: Door) => void;
}

export interface RunningServer {
  readonly port: number;
  /** Null where TLS is off. */
  readonly tlsPort: number | null;
  close(): Promise<void>;
}

/** Serves the screen, `/health`, and the two sockets, to pages of its own and to no others'. */
export async function startServer(settings: ServerSettings): Promise<RunningServer> {
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: MOST_PAYLOAD_BYTES,
    perMessageDeflate: false,
  });
  const limits = new ConnectionLimits();
  const answer = answerer(settings);
  const plainServer = watched(createServer(SLOW, answer), settings, sockets, limits);
  await listening(plainServer, settings.port, settings.lan ? EVERYWHERE : LOOPBACK);
  const port = portOf(plainServer);
  const { tls } = settings;
  if (tls === null) return { port, tlsPort: null, close: () => closed([plainServer], sockets) };
  const options = {
    ...SLOW,
    key: tls.privateKey,
    cert: tls.certificate,
    minVersion: 'TLSv1.2',
  } as const;
  const tlsServer = watched(createTlsServer(options, answer), settings, sockets, limits);
  try {
    await listening(tlsServer, settings.port === 0 ? 0 : port + 1, EVERYWHERE);
  } catch (error) {
    await closed([plainServer], sockets);
    throw error;
  }
  return {
    port,
    tlsPort: portOf(tlsServer),
    close: () => closed([plainServer, tlsServer], sockets),
  };
}

const SLOW = {
  headersTimeout: 10_000,
  requestTimeout: 30_000,
  connectionsCheckingInterval: 1000,
} as const;

function watched<S extends Server>(
  server: S,
  settings: ServerSettings,
  sockets: WebSocketServer,
  limits: ConnectionLimits,
): S {
  server.on('connection', (socket) => limits.opened(socket));
  // TLS that never comes about is ended by the limits and the time-outs; nobody is to be told.
  server.on('tlsClientError', (_error, socket) => socket.destroy());
  server.on('upgrade', (request, socket, head) => {
    const refusal = upgradeRefusal(request);
    if (refusal !== null) {
      refuseUpgrade(socket, refusal);
      return;
    }
    const wire = request.socket;
    const way = wayOf(request);
    sockets.handleUpgrade(request, socket, head, (opened) => {
      limits.becameSocket(wire);
      // A broken frame closes the socket by itself; there is nothing more to do about it here.
      opened.on('error', () => {});
      keepAlive(opened, settings.silentAfterS ?? USUAL_SILENT_AFTER_S);
      settings.onSocket(opened, wire, way, pathOf(request) === '/device' ? 'device' : 'screen');
    });
  });
  return server;
}

function answerer(settings: ServerSettings) {
  const files = existsSync(settings.screenFolder)
    ? sirv(settings.screenFolder, { single: false, dotfiles: false, etag: true, maxAge: 0 })
    : null;
  return (request: IncomingMessage, response: ServerResponse): void => {
    for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
    // Browsers heed, and without a complaint take, this one only where nobody can have changed it.
    if (isSecure(request) || isLoopback(request.socket.localAddress ?? ''))
      response.setHeader('Cross-Origin-Opener-Policy', 'same-origin');
    const { host } = request.headers;
    if (!isOwnHost(host, request.socket.localPort ?? 0, ownNames())) {
      response.setHeader('Content-Security-Policy', CONTENT_SECURITY_POLICY);
      plain(response, 403, 'This address is not known here.');
      return;
    }
    // Older browsers do not count a WebSocket of the same place as 'self'.
    response.setHeader(
      'Content-Security-Policy',
      `${CONTENT_SECURITY_POLICY} ${isSecure(request) ? 'wss' : 'ws'}://${host}`,
    );
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      plain(response, 405, 'Only reading.');
    } else if (pathOf(request) === '/health') {
      response.setHeader('Content-Type', 'application/json');
      response.setHeader('Cache-Control', 'no-store');
      const { version, health } = settings;
      response.end(JSON.stringify({ program: PROGRAM_NAME, version, ...health?.() }));
    } else if (pathOf(request) === '/record' && settings.recordCopy !== undefined) {
      settings.recordCopy(request, response, wayOf(request));
    } else if (pathOf(request).startsWith(DOCUMENT) && settings.document !== undefined) {
      const name = pathOf(request).slice(DOCUMENT.length);
      settings.document(request, response, wayOf(request), name);
    } else if (pathOf(request).startsWith(PHOTOGRAPH) && settings.photograph !== undefined) {
      const line = pathOf(request).slice(PHOTOGRAPH.length);
      settings.photograph(request, response, wayOf(request), line);
    } else if (files === null) plain(response, 503, 'The screen is not built.');
    else files(request, response, () => plain(response, 404, 'There is no such page.'));
  };
}

/** [status, reason] an upgrade is refused with, or null. */
function upgradeRefusal(request: IncomingMessage): string | null {
  const path = pathOf(request);
  const { host, origin } = request.headers;
  if (path !== '/device' && path !== '/screen') return '404 Not Found';
  if (!isOwnHost(host, request.socket.localPort ?? 0)) return '403 Forbidden';
  // A page always says where it is from: another's page may not reach in, and no page is a device.
  if (origin === undefined) return null;
  const own = `${isSecure(request) ? 'https' : 'http'}://${host}`;
  return path === '/device' || origin !== own ? '403 Forbidden' : null;
}

function wayOf(request: IncomingMessage): WayIn {
  const address = request.socket.remoteAddress;
  return {
    address: address ?? 'unknown',
    loopback: isLoopback(address ?? ''),
    secure: isSecure(request),
  };
}

function isSecure(request: IncomingMessage): boolean {
  return 'encrypted' in request.socket && request.socket.encrypted === true;
}

function refuseUpgrade(socket: Duplex, status: string): void {
  socket.on('error', () => {});
  socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
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

function listening(server: Server, port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const failed = (error: NodeJS.ErrnoException) => {
      reject(
        error.code === 'EADDRINUSE' ? new Fault('port-taken', `${port}`, error.message) : error,
      );
    };
    server.once('error', failed);
    server.listen({ port, host, exclusive: true }, () => {
      server.off('error', failed);
      resolve();
    });
  });
}

async function closed(servers: readonly Server[], sockets: WebSocketServer): Promise<void> {
  for (const socket of sockets.clients) socket.terminate();
  await Promise.all(
    servers.map((server) => {
      server.closeAllConnections();
      return new Promise<void>((resolve) => {
        server.close(() => resolve());
      });
    }),
  );
}
