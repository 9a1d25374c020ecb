import type { RawData, WebSocket } from 'ws';
import type { SessionState } from '#core/session/session.ts';
import type { PersonRole } from '#core/wire/role-acts.ts';
import type { Act, ActAnswer, LivePicture, ToScreen } from '#core/wire/screen-message.ts';
import { type AskedIn, letIn } from './receiver-access.ts';

/** A screen without a page: what it was last sent, and acts that wait for their answer. */
export class ScreenClient {
  state: SessionState | null = null;
  live: LivePicture | null = null;
  liveCount = 0;
  /** Why the last refused act was refused, in words. */
  refusedFor: string | null = null;
  onLive: (live: LivePicture) => void = () => {};
  readonly socket: WebSocket;
  readonly #answers = new Map<string, (refused: ActAnswer['refused']) => void>();
  #id = 0;

  private constructor({ socket, hear }: AskedIn) {
    this.socket = socket;
    hear((data: RawData) => this.#hear(JSON.parse(String(data)) as ToScreen));
    socket.on('error', () => {});
  }

  static async connect(
    port: number,
    role: PersonRole = 'architect',
    name = 'E. Thorne',
  ): Promise<ScreenClient> {
    return new ScreenClient(await letIn(port, role, name));
  }

  /** Resolves with the refusal's code, or null when the act is in the record. */
  async act(act: Act): Promise<string | null> {
    this.#id += 1;
    const id = `${this.#id}`;
    const answer = new Promise<ActAnswer['refused']>((resolve) => this.#answers.set(id, resolve));
    this.socket.send(JSON.stringify({ type: 'act', id, act }));
    const refused = await answer;
    this.refusedFor = refused?.found ?? this.refusedFor;
    return refused?.code ?? null;
  }

  close(): void {
    this.socket.terminate();
  }

  #hear(message: ToScreen): void {
    if (message.type === 'state') this.state = message.state;
    else if (message.type === 'live') {
      this.live = message;
      this.liveCount += 1;
      this.onLive(message);
    } else if (message.type === 'answer') {
      this.#answers.get(message.id)?.(message.refused);
      this.#answers.delete(message.id);
    }
  }
}
