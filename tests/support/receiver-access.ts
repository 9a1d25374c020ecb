import { once } from 'node:events';
import { type RawData, WebSocket } from 'ws';
import type {
  Admitted,
  AdmittedRole,
  FromUnknown,
  NotAdmitted,
} from '#core/wire/access-message.ts';
import type { InvitationMessage } from '#core/wire/screen-message.ts';
import { type Program, pause } from './programs.ts';

/** Invitations that a receiver gives at its start; null: it gave none of these. */
export interface StartCodes {
  readonly architect: string;
  readonly boards: string | null;
}

/** By port: what a receiver printed, and the tokens that were had for it. */
const known = new Map<number, { codes: StartCodes; tokens: Map<AdmittedRole, Promise<string>> }>();

/** Remembers how to come in at a port; what was known of it before is another receiver's. */
export function noteCodes(port: number, codes: StartCodes): void {
  known.set(port, { codes, tokens: new Map() });
}

/** The same receiver, with the same folder, started again at another port: its tokens are good. */
export function sameReceiverAt(port: number, before: number): void {
  const here = known.get(before);
  if (here !== undefined) known.set(port, here);
}

export interface ReceiverStarted {
  readonly port: number;
  /** As printed: opens the screen as architect, once. */
  readonly address: string;
  /** What a board side is let in by; empty where a demo has brought its own. */
  readonly pair: readonly string[];
}

/** Waits until a receiver, or a demo, has printed its address, and remembers how to come in. */
export async function receiverStarted(
  program: Program,
  withinMs = 60_000,
): Promise<ReceiverStarted> {
  const said = await program.says(/http:\/\/127\.0\.0\.1:(\d+)\/#([\w-]{22})/, withinMs);
  const boards = /--pair ([\w-]{22})/.exec(program.said)?.[1] ?? null;
  const [address, port = '', architect = ''] = said;
  noteCodes(Number(port), { architect, boards });
  return { port: Number(port), address, pair: boards === null ? [] : ['--pair', boards] };
}

/** A socket that has had its answer. */
export interface AskedIn {
  readonly socket: WebSocket;
  /** Every message after the answer, also those that have come already. */
  readonly hear: (next: (data: RawData) => void) => void;
}

/** Opens a socket and says who it is; resolves with the answer, admitted or not. */
export async function askedIn(
  url: string,
  message: FromUnknown,
): Promise<AskedIn & { answer: Admitted | NotAdmitted }> {
  const socket = new WebSocket(url, { rejectUnauthorized: false });
  // An answer that is an end comes as a close; who waits for a message is told by that.
  socket.on('error', () => {});
  const early: RawData[] = [];
  let heard = (data: RawData) => {
    early.push(data);
  };
  const answered = new Promise<RawData>((resolve, reject) => {
    socket.once('message', (data) => {
      resolve(data);
      socket.on('message', (next) => heard(next));
    });
    socket.once('close', (code) => reject(new Error(`closed with ${code}`)));
  });
  await once(socket, 'open');
  socket.send(JSON.stringify(message));
  const answer = JSON.parse(String(await answered)) as Admitted | NotAdmitted;
  const hear = (next: (data: RawData) => void) => {
    for (const data of early.splice(0)) next(data);
    heard = next;
  };
  return { socket, answer, hear };
}

/** As `askedIn`, with a token had before or now, and an error when it is not admitted. */
export async function letIn(
  port: number,
  role: AdmittedRole,
  name: string,
): Promise<AskedIn & { admitted: Admitted }> {
  const door = role === 'device' ? 'device' : 'screen';
  const token = await tokenOf(port, role);
  for (;;) {
    const { answer, ...asked } = await askedIn(`ws://127.0.0.1:${port}/${door}`, {
      type: 'token',
      version: 1,
      token,
      name,
    });
    if (answer.type === 'admitted') return { ...asked, admitted: answer };
    // Three of one address are heard at once; the others come again, as a screen does.
    if (answer.code !== 'access-crowded')
      throw new Error(`not admitted: ${answer.code} ${answer.found}`);
    await pause(50);
  }
}

function tokenOf(port: number, role: AdmittedRole): Promise<string> {
  const here = known.get(port);
  if (here === undefined) throw new Error(`nothing is known of a receiver on port ${port}`);
  const had = here.tokens.get(role) ?? newToken(port, role, here.codes);
  here.tokens.set(role, had);
  return had;
}

async function newToken(port: number, role: AdmittedRole, codes: StartCodes): Promise<string> {
  const own = role === 'architect' ? codes.architect : role === 'device' ? codes.boards : null;
  const code = own ?? (await invited(port, role)).code;
  const door = role === 'device' ? 'device' : 'screen';
  const { socket, answer } = await askedIn(`ws://127.0.0.1:${port}/${door}`, {
    type: 'invited',
    version: 1,
    code,
    name: '',
  });
  socket.terminate();
  if (answer.type !== 'admitted' || answer.token === null)
    throw new Error(`no token for ${role}: ${JSON.stringify(answer)}`);
  return answer.token;
}

/** An invitation had from an architect's screen. */
export async function invited(port: number, role: AdmittedRole): Promise<InvitationMessage> {
  const { socket, hear } = await letIn(port, 'architect', 'E. Thorne');
  const invitation = new Promise<InvitationMessage>((resolve) => {
    hear((data) => {
      const message = JSON.parse(String(data)) as { type: string };
      if (message.type === 'invitation') resolve(message as InvitationMessage);
    });
  });
  socket.send(JSON.stringify({ type: 'invite', id: 'i1', role }));
  const given = await invitation;
  socket.terminate();
  return given;
}
