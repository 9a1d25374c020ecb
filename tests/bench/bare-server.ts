import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { performance } from 'node:perf_hooks';
import { WebSocket } from 'ws';
import { Program, pause } from '#tests/support/programs.ts';
import type { LinkMessage } from './link-messages.ts';
import { mainThreadS } from './thread-time.ts';

/** Bytes handed to the socket and not yet gone, as the board side holds it. */
const MOST_QUEUED_BYTES = 1024 * 1024;

/** Takes the same messages, parses them, and says when it has had as many as it was told. */
const BARE = `
import { WebSocketServer } from 'ws';
const server = new WebSocketServer({ host: '127.0.0.1', port: 0, perMessageDeflate: false });
server.on('listening', () => console.log('port ' + server.address().port));
server.on('connection', (socket) => {
  let left = 0;
  socket.on('message', (bytes) => {
    const message = JSON.parse(bytes.toString('utf8'));
    if (message.expect !== undefined) left = message.expect;
    else if ((left -= 1) === 0) socket.send('done');
  });
});`;

/** Sends as fast as the socket takes it; `between` is called before each message. */
export async function pour(
  socket: WebSocket,
  messages: readonly LinkMessage[],
  between: (next: LinkMessage) => void = () => {},
): Promise<void> {
  for (const message of messages) {
    between(message);
    socket.send(message.text);
    while (socket.bufferedAmount > MOST_QUEUED_BYTES) await pause(1);
  }
}

/** A server of one line of work, to hold the receiver's intake against. */
export class BareServer {
  readonly #program: Program;
  readonly #socket: WebSocket;

  private constructor(program: Program, socket: WebSocket) {
    this.#program = program;
    this.#socket = socket;
  }

  static async start(): Promise<BareServer> {
    const child = spawn(process.execPath, ['--input-type=module', '-e', BARE], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    const program = new Program(child);
    const [, port] = await program.says(/port (\d+)/);
    const socket = new WebSocket(`ws://127.0.0.1:${port}`, { perMessageDeflate: false });
    await once(socket, 'open');
    return new BareServer(program, socket);
  }

  get busyS(): number {
    return mainThreadS(this.#program.child.pid) ?? Number.NaN;
  }

  /** Wall seconds until it had parsed them all. */
  async feed(messages: readonly LinkMessage[]): Promise<number> {
    this.#socket.send(JSON.stringify({ expect: messages.length }));
    const done = once(this.#socket, 'message');
    const beganMs = performance.now();
    await pour(this.#socket, messages);
    await done;
    return (performance.now() - beganMs) / 1000;
  }

  async close(): Promise<void> {
    this.#socket.terminate();
    await this.#program.kill();
  }
}
