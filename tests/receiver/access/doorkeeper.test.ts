import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { ADMITTED_ROLES } from '#core/wire/access-message.ts';
import { Doorkeeper } from '#receiver/access/doorkeeper.ts';
import { Invitations } from '#receiver/access/invitations.ts';
import { TokenStore } from '#receiver/access/token-store.ts';
import type { WayIn } from '#receiver/access/way-in.ts';
import { randomBytesFromSeed } from '#tests/support/seeded.ts';

const HERE: WayIn = { address: '127.0.0.1', loopback: true, secure: false };
const PLAIN: WayIn = { address: '192.168.1.9', loopback: false, secure: false };
const TLS: WayIn = { address: '192.168.1.9', loopback: false, secure: true };

let folder = '';
let invitations: Invitations;
let tokens: TokenStore;
let door: Doorkeeper;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'door-'));
  const random = randomBytesFromSeed(11);
  invitations = new Invitations(random, () => 0);
  tokens = new TokenStore(folder, random);
  door = new Doorkeeper({ invitations, tokens, random, wall: () => '2026-11-25T08:00:00.000Z' });
});
afterEach(() => rmSync(folder, { recursive: true }));

function refusal(text: string, way: WayIn): string | null {
  try {
    door.admit(text, way);
    return null;
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
}
const invited = (code: string, name = '') =>
  JSON.stringify({ type: 'invited', version: 1, code, name });
const byToken = (token: string, name = '') =>
  JSON.stringify({ type: 'token', version: 1, token, name });

describe('the doorkeeper', () => {
  it('gives a token for an invitation, and lets in by it from then on under any name', () => {
    const { admitted } = door.admit(invited(invitations.invite('witness').code, 'M. Quill'), PLAIN);
    expect(admitted).toMatchObject({ role: 'witness', name: 'M. Quill' });
    const again = door.admit(byToken(admitted.token!), PLAIN).admitted;
    expect(again).toMatchObject({ role: 'witness', name: 'M. Quill', token: null });
    expect(again.challenge).not.toBe(admitted.challenge);
    expect(door.admit(byToken(admitted.token!, 'M. Q.'), PLAIN).admitted.name).toBe('M. Q.');
  });

  it.each(ADMITTED_ROLES)('lets a %s in where what is said is safe from others', (role) => {
    const by = (way: WayIn) => refusal(invited(invitations.invite(role).code), way);
    expect(by(HERE)).toBeNull();
    expect(by(TLS)).toBeNull();
    expect(by(PLAIN)).toBe(role === 'witness' ? null : 'access-not-here');
  });

  it('makes void what came in clear and must not have: code and token', () => {
    const { code } = invitations.invite('architect');
    expect(refusal(invited(code), PLAIN)).toBe('access-not-here');
    expect(refusal(invited(code), HERE)).toBe('invitation-not-valid');
    const { token } = door.admit(invited(invitations.invite('architect').code), HERE).admitted;
    expect(refusal(byToken(token!), PLAIN)).toBe('access-not-here');
    expect(refusal(byToken(token!), HERE)).toBe('access-unknown');
  });

  it.each([
    [byToken('A'.repeat(43)), 'access-unknown'],
    [invited('A'.repeat(22)), 'invitation-not-valid'],
    [
      '{"type":"invited-by-words","version":1,"words":"zoo zoo zoo zoo","name":""}',
      'invitation-not-valid',
    ],
    ['', 'access-not-said'],
    ['null', 'access-not-said'],
    ['{"type":"act","id":"1","act":{"kind":"seal","reason":"x"}}', 'access-not-said'],
    [byToken('A'.repeat(42)), 'access-not-said'],
    [byToken('A'.repeat(43)).replace('"version":1', '"version":2'), 'access-not-said'],
    [byToken('A'.repeat(43)).replace('}', ',"role":"architect"}'), 'access-not-said'],
    [byToken('A'.repeat(43), 'x'.repeat(65)), 'access-not-said'],
    [byToken('A'.repeat(43)).replace('}', ',"__proto__":{"role":"architect"}}'), 'access-not-said'],
    [JSON.stringify({ type: 'token', pad: 'x'.repeat(2000) }), 'access-not-said'],
  ])('refuses %s', (text, code) => {
    expect(refusal(text, HERE)).toBe(code);
  });
});
