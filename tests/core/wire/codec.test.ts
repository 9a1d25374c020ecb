import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { messageFromText, typeOf } from '#core/wire/codec.ts';
import { fromScreen } from '#core/wire/screen-message.ts';

const LIMITS = { where: 'screen', mostBytes: 200 };

function codeOf(text: string): string {
  try {
    messageFromText(fromScreen, text, LIMITS);
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
  return 'read';
}

describe('a message at the door', () => {
  it('is read when it is of the agreed form', () => {
    const invite = { type: 'invite', id: '1', role: 'witness' };
    expect(messageFromText(fromScreen, JSON.stringify(invite), LIMITS)).toEqual(invite);
  });

  it('is refused with the code of what is wrong with it', () => {
    expect(codeOf('{"type":"wave"}')).toBe('message-unknown');
    expect(codeOf('{}')).toBe('message-unknown');
    expect(codeOf('5')).toBe('message-malformed');
    expect(codeOf('')).toBe('message-malformed');
    expect(codeOf('{"type":"act","id":"1","act":{"kind":"fly"}}')).toBe('message-malformed');
    expect(codeOf('{"type":"invite","id":"1","role":"captain"}')).toBe('message-malformed');
    expect(codeOf('['.repeat(90) + ']'.repeat(90))).toBe('message-malformed');
  });

  it('is measured in bytes, not letters', () => {
    const letters = (count: number) => JSON.stringify('é'.repeat(count));
    expect(codeOf(letters(99))).toBe('message-malformed');
    expect(codeOf(letters(100))).toBe('message-too-large');
  });
});

it('the type of a message is its own field, or nothing', () => {
  expect(typeOf({ type: 'samples' })).toBe('samples');
  expect(typeOf(null)).toBeUndefined();
  expect(typeOf(Object.create({ type: 'inherited' }))).toBeUndefined();
});
