import { randomBytes } from 'node:crypto';
import type { Socket } from 'node:net';
import type { WebSocket } from 'ws';
import { Fault } from '#core/fault/fault.ts';
import type { AdmittedRole } from '#core/wire/access-message.ts';
import type { InvitationMessage, PeopleMessage } from '#core/wire/screen-message.ts';
import type { AccessRequest } from '../screens.ts';
import { lanAddresses } from './addresses.ts';
import { type AdmittedBy, Doorkeeper } from './doorkeeper.ts';
import { type Door, Entrance } from './entrance.ts';
import { CODE_FOR_S, Invitations, WORDS_FOR_S } from './invitations.ts';
import type { TlsCertificate } from './tls-certificate.ts';
import { TokenStore } from './token-store.ts';
import { type WayIn, wayWords } from './way-in.ts';

/** Where the receiver can be reached, once it listens. */
export interface Reach {
  readonly port: number;
  readonly lan: boolean;
  readonly tlsPort: number | null;
}

export interface AccessParts {
  /** Folder of the receiver's own files. */
  readonly folder: string;
  readonly tls: TlsCertificate | null;
  readonly wall: () => string;
  /** Wall seconds that never go back: a paced demo does not make invitations older. */
  readonly nowS: () => number;
  readonly onAdmitted: (socket: WebSocket, by: AdmittedBy, way: WayIn) => void;
  /** Who can come in, or who is in, has changed. */
  readonly onPeople: () => void;
  readonly onWithdrawn: (person: string, role: AdmittedRole, name: string) => void;
}

/** Everything about who may come in: invitations, tokens, the door, and who is inside. */
export class Access {
  readonly tokens: TokenStore;
  readonly #parts: AccessParts;
  readonly #invitations: Invitations;
  readonly doorkeeper: Doorkeeper;
  readonly #entrance: Entrance;
  /** Connections open now, by the digest of their token. */
  readonly #inside = new Map<WebSocket, { readonly tokenSha256: string; readonly way: WayIn }>();
  #reach: Reach = { port: 0, lan: false, tlsPort: null };

  constructor(parts: AccessParts) {
    this.#parts = parts;
    const random = (bytes: number) => new Uint8Array(randomBytes(bytes));
    this.tokens = new TokenStore(parts.folder, random);
    this.#invitations = new Invitations(random, parts.nowS);
    const { wall } = parts;
    const { tokens } = this;
    this.doorkeeper = new Doorkeeper({ invitations: this.#invitations, tokens, random, wall });
    this.#entrance = new Entrance({
      doorkeeper: this.doorkeeper,
      onAdmitted: (socket, by, way) => this.#admitted(socket, by, way),
    });
  }

  listensAt(reach: Reach): void {
    this.#reach = reach;
  }

  enter(socket: WebSocket, wire: Socket, way: WayIn, door: Door): void {
    this.#entrance.enter(socket, wire, way, door);
  }

  /** For who starts the program and reads what it prints: valid until used. */
  codeAtStart(role: AdmittedRole): string {
    return this.#invitations.inviteByCode(role).code;
  }

  /** Throws `act-not-now` when there is no such person. */
  request(request: AccessRequest): InvitationMessage | PeopleMessage {
    if (request.type === 'invite') return this.#invite(request.id, request.role);
    const given = this.tokens.list.find(({ sha256 }) => personOf(sha256) === request.person);
    if (given === undefined) throw new Fault('act-not-now', 'withdraw', 'nobody is known as that');
    this.tokens.withdraw(given.sha256);
    for (const [socket, { tokenSha256 }] of this.#inside)
      if (tokenSha256 === given.sha256) socket.close(1008, 'access-unknown');
    const { onPeople, onWithdrawn } = this.#parts;
    onWithdrawn(request.person, given.role, given.name);
    onPeople();
    return this.people();
  }

  people(): PeopleMessage {
    const inside = [...this.#inside.values()];
    return {
      type: 'people',
      people: this.tokens.list.map(({ sha256, role, name, admitted }) => ({
        person: personOf(sha256),
        role,
        name,
        admitted,
        ways: inside.filter((one) => one.tokenSha256 === sha256).map(({ way }) => wayWords(way)),
      })),
    };
  }

  #invite(id: string, role: AdmittedRole): InvitationMessage {
    const { code, words } = this.#invitations.invite(role);
    return {
      type: 'invitation',
      id,
      role,
      code,
      words: words ?? [],
      wordsForS: WORDS_FOR_S,
      codeForS: CODE_FOR_S,
      addresses: this.#addresses(role),
      fingerprint: this.#parts.tls?.fingerprint ?? null,
      keyFingerprint: this.#parts.tls?.keyFingerprint ?? null,
    };
  }

  /** Off this machine a witness comes by plain http, which no phone warns of; others by TLS only. */
  #addresses(role: AdmittedRole): InvitationMessage['addresses'] {
    const { port, lan, tlsPort } = this.#reach;
    const [plain, secure] = role === 'device' ? ['ws', 'wss'] : ['http', 'https'];
    const urls = lanAddresses().flatMap(({ interface: name, address }) => [
      ...(lan && role === 'witness'
        ? [{ interface: name, url: `${plain}://${address}:${port}/` }]
        : []),
      ...(tlsPort !== null ? [{ interface: name, url: `${secure}://${address}:${tlsPort}/` }] : []),
    ]);
    return [...urls, { interface: 'this machine', url: `${plain}://127.0.0.1:${port}/` }];
  }

  #admitted(socket: WebSocket, by: AdmittedBy, way: WayIn): void {
    this.#inside.set(socket, { tokenSha256: by.tokenSha256, way });
    socket.once('close', () => {
      this.#inside.delete(socket);
      this.#parts.onPeople();
    });
    this.#parts.onAdmitted(socket, by, way);
    this.#parts.onPeople();
  }
}

/** Tells one token's bearer from another's and opens nothing. */
export function personOf(tokenSha256: string): string {
  return tokenSha256.slice(0, 8);
}
