import { base64UrlOf } from '#core/digest/base64-url.ts';
import { Fault } from '#core/fault/fault.ts';
import {
  type Admitted,
  type AdmittedRole,
  type FromUnknown,
  fromUnknown,
  MOST_ACCESS_BYTES,
} from '#core/wire/access-message.ts';
import { messageFromText } from '#core/wire/codec.ts';
import type { Invitations } from './invitations.ts';
import type { TokenStore } from './token-store.ts';
import { mayComeBy, type WayIn } from './way-in.ts';

const CHALLENGE_BYTES = 32;

/** Somebody who may come in, and by which token. */
export interface AdmittedBy {
  readonly admitted: Admitted;
  /** SHA-256 of the token, hex. */
  readonly tokenSha256: string;
  /** They read by eye and asked for no heel. */
  readonly blind: boolean;
}

export interface DoorkeeperParts {
  readonly invitations: Invitations;
  readonly tokens: TokenStore;
  readonly random: (bytes: number) => Uint8Array;
  /** Wall time, ISO 8601. */
  readonly wall: () => string;
}

/** Reads the first message of a connection and says who it is. */
export class Doorkeeper {
  readonly #parts: DoorkeeperParts;

  constructor(parts: DoorkeeperParts) {
    this.#parts = parts;
  }

  /**
   * Throws the fault access is refused with: `access-not-said`, `access-unknown`,
   * `invitation-not-valid`, `access-not-here`, `access-full`. A token or code that came in clear
   * and must not have is void from then on.
   */
  admit(text: string, way: WayIn): AdmittedBy {
    const message = firstMessage(text);
    if (message.type === 'token') return this.#byToken(message, way);
    const { invitations, tokens, wall } = this.#parts;
    const role =
      message.type === 'invited'
        ? invitations.takeCode(message.code)
        : invitations.takeWords(message.words);
    if (!mayComeBy(way, role)) throw notHere(role, way);
    const name = nameOr(message.name, role);
    const given = tokens.add(role, name, wall());
    return {
      admitted: { ...this.#welcome(role, name), token: given.token },
      tokenSha256: given.sha256,
      blind: message.blind === true,
    };
  }

  #byToken(message: FromUnknown & { type: 'token' }, way: WayIn): AdmittedBy {
    const { tokens } = this.#parts;
    const found = tokens.find(message.token);
    if (found === undefined) throw new Fault('access-unknown', 'token', 'it is none given here');
    if (!mayComeBy(way, found.role)) {
      tokens.withdraw(found.sha256);
      throw notHere(found.role, way);
    }
    const name = message.name === '' ? found.name : message.name;
    const admitted = this.#welcome(found.role, name);
    return { admitted, tokenSha256: found.sha256, blind: message.blind === true };
  }

  #welcome(role: AdmittedRole, name: string): Admitted {
    const challenge = base64UrlOf(this.#parts.random(CHALLENGE_BYTES));
    return { type: 'admitted', role, name, token: null, challenge };
  }
}

function firstMessage(text: string): FromUnknown {
  try {
    return messageFromText(fromUnknown, text, { where: 'access', mostBytes: MOST_ACCESS_BYTES });
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    throw new Fault('access-not-said', 'access', error.report.found);
  }
}

function notHere(role: AdmittedRole, way: WayIn): Fault {
  return new Fault(
    'access-not-here',
    role,
    `${way.address} over plain http; what it sent is void now`,
  );
}

/** What somebody is called who gave no name. */
const WORD_OF: Readonly<Record<AdmittedRole, string>> = {
  architect: 'Architect',
  witness: 'Witness',
  technician: 'Technician',
  device: 'Boards',
};

function nameOr(name: string, role: AdmittedRole): string {
  return name === '' ? WORD_OF[role] : name;
}
