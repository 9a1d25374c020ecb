import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { INVITATION_CODE } from '#core/wire/access-message.ts';
import { CODE_FOR_S, Invitations, WORDS_FOR_S, WORDS_TRIES } from '#receiver/access/invitations.ts';
import { randomBytesFromSeed } from '#tests/support/seeded.ts';

function at() {
  const clock = { nowS: 1000 };
  const invitations = new Invitations(randomBytesFromSeed(5), () => clock.nowS);
  return { clock, invitations };
}

function refusal(attempt: () => unknown): string | null {
  try {
    attempt();
    return null;
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
}

describe('an invitation', () => {
  it('opens once, by its code or by its words, and is then void both ways', () => {
    const { invitations } = at();
    const byCode = invitations.invite('witness');
    expect(byCode.code).toMatch(INVITATION_CODE);
    expect(invitations.takeCode(byCode.code)).toBe('witness');
    expect(refusal(() => invitations.takeCode(byCode.code))).toBe('invitation-not-valid');
    expect(refusal(() => invitations.takeWords(byCode.words!.join(' ')))).toBe(
      'invitation-not-valid',
    );
    const byWords = invitations.invite('technician');
    expect(invitations.takeWords(byWords.words!.map((word) => word.slice(0, 4)).join('-'))).toBe(
      'technician',
    );
    expect(refusal(() => invitations.takeCode(byWords.code))).toBe('invitation-not-valid');
  });

  it('by words ends after two minutes, by its code after ten', () => {
    const { clock, invitations } = at();
    const { code, words } = invitations.invite('witness');
    clock.nowS += WORDS_FOR_S;
    expect(refusal(() => invitations.takeWords(words!.join(' ')))).toBe('invitation-not-valid');
    clock.nowS += CODE_FOR_S - WORDS_FOR_S - 1;
    expect(invitations.takeCode(code)).toBe('witness');
    const late = invitations.invite('witness');
    clock.nowS += CODE_FOR_S;
    expect(refusal(() => invitations.takeCode(late.code))).toBe('invitation-not-valid');
  });

  it('by words stands five wrong tries in all; its code is good all the same', () => {
    const { invitations } = at();
    const { code, words } = invitations.invite('witness');
    for (let k = 0; k < WORDS_TRIES; k++)
      expect(refusal(() => invitations.takeWords('zoo zoo zoo nothing'))).toBe(
        'invitation-not-valid',
      );
    expect(refusal(() => invitations.takeWords(words!.join(' ')))).toBe('invitation-not-valid');
    expect(invitations.takeCode(code)).toBe('witness');
    const next = invitations.invite('witness');
    expect(invitations.takeWords(next.words!.join(' '))).toBe('witness');
  });

  it('printed at the start is valid until it is used', () => {
    const { clock, invitations } = at();
    const { code, words } = invitations.inviteByCode('architect');
    expect(words).toBeNull();
    clock.nowS += 1e6;
    expect(invitations.takeCode(code)).toBe('architect');
  });
});
