import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { EMPTY_SESSION } from '#core/session/fold.ts';
import { MOST_TO_SCREEN_BYTES, readToScreen } from '#core/wire/to-screen.ts';

const live = {
  type: 'live',
  receiverS: 12.5,
  wall: '2026-11-25T09:00:00.000Z',
  whole: false,
  instruments: [
    {
      instrument: 'fore',
      label: 'Fore',
      verdict: 'steady',
      reason: 'steady for 60 s',
      estimate: {
        heelDeg: 1,
        standardErrorDeg: 0.003,
        degreesOfFreedom: 12,
        halfWidth95Deg: 0.007,
      },
      refused: null,
      temperatureC: 11.2,
      trace: { atS: [12.3, 12.4], heelDeg: [1.01, null] },
    },
  ],
  joined: {
    verdict: 'settling',
    reason: '22 s more',
    estimate: null,
    readable: false,
    whyNot: 'not yet',
    countedS: 20,
    remainingS: 22,
  },
  notUsed: [{ fromS: 1, toS: 2, kind: 'wake', instruments: null }],
  simulation: null,
  saved: { wall: '2026-11-25T09:00:00.000Z', line: 4, head: 'ab' },
  notRecording: null,
  stations: [{ station: 's', connected: true, uncertaintyS: null }],
};

function codeOf(message: string): string {
  try {
    readToScreen(message);
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
  return 'taken';
}

describe('a message to a screen', () => {
  it('is taken as it is when every part a page reads is there', () => {
    expect(readToScreen(JSON.stringify(live))).toEqual(live);
    const state = { type: 'state', state: { ...EMPTY_SESSION } };
    expect(readToScreen(JSON.stringify(state))).toEqual(state);
    const answer = { type: 'answer', id: '3', refused: null };
    expect(readToScreen(JSON.stringify(answer))).toEqual(answer);
  });

  it('is refused with its code when it is not', () => {
    expect(codeOf('{')).toBe('message-malformed');
    expect(codeOf('null')).toBe('message-unknown');
    expect(codeOf('{"type":"toString"}')).toBe('message-unknown');
    expect(codeOf(JSON.stringify({ ...live, joined: null }))).toBe('message-malformed');
    expect(codeOf(JSON.stringify({ ...live, receiverS: 'now' }))).toBe('message-malformed');
    expect(codeOf(JSON.stringify({ type: 'state', state: {} }))).toBe('message-malformed');
    expect(codeOf(' '.repeat(MOST_TO_SCREEN_BYTES + 1))).toBe('message-too-large');
  });
});
