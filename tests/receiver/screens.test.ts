import { describe, expect, it, vi } from 'vitest';
import type { PersonRole } from '#core/wire/role-acts.ts';
import type { PeopleMessage } from '#core/wire/screen-message.ts';
import { Screen, type ScreenSocket } from '#receiver/screens.ts';

class FakeSocket implements ScreenSocket {
  waitingBytes = 0;
  closedWith: number | null = null;
  readonly sent: string[] = [];

  send(text: string): void {
    this.sent.push(text);
  }
  close(code: number): void {
    this.closedWith = code;
  }
}

const PEOPLE: PeopleMessage = { type: 'people', people: [] };

function screenOf(role: PersonRole = 'architect', act = () => Promise.resolve()) {
  const socket = new FakeSocket();
  const screen = new Screen(socket, { name: 'A', role }, { act, access: () => PEOPLE });
  return { socket, screen };
}

const PICTURE = { whole: () => 'whole', news: () => 'news' };

describe('a screen', () => {
  it('is sent the whole picture first, then the news', () => {
    const { socket, screen } = screenOf();
    for (let count = 0; count < 3; count += 1) screen.sendLive(PICTURE);
    expect(socket.sent).toEqual(['whole', 'news', 'news']);
  });

  it('that is slow misses pictures, is never queued for, and then gets the whole again', () => {
    const { socket, screen } = screenOf();
    screen.sendLive(PICTURE);
    socket.waitingBytes = 300 * 1024;
    for (let count = 0; count < 50; count += 1) screen.sendLive(PICTURE);
    socket.waitingBytes = 0;
    screen.sendLive(PICTURE);
    screen.sendLive(PICTURE);
    expect(socket.sent).toEqual(['whole', 'whole', 'news']);
  });

  it('that has taken nothing for megabytes is let go instead of being sent states', () => {
    const { socket, screen } = screenOf();
    screen.sendWhole('state');
    socket.waitingBytes = 9 * 1024 * 1024;
    screen.sendWhole('state');
    expect(socket.sent).toEqual(['state']);
    expect(socket.closedWith).toBe(1013);
  });

  it('may not do more than eight things at once', () => {
    const { socket, screen } = screenOf('architect', () => new Promise<void>(() => {}));
    for (let id = 1; id <= 9; id += 1)
      screen.receive(`{"type":"act","id":"${id}","act":{"kind":"begin-shift"}}`);
    expect(socket.sent.map((text) => JSON.parse(text))).toMatchObject([
      { id: '9', refused: { code: 'act-not-now' } },
    ]);
  });

  it.each(['witness', 'technician'] as const)(
    'lets no %s let anybody in or put them out',
    (role) => {
      const { socket, screen } = screenOf(role);
      screen.receive('{"type":"invite","id":"1","role":"architect"}');
      screen.receive('{"type":"withdraw","id":"2","person":"00000000"}');
      expect(socket.sent.map((text) => JSON.parse(text))).toMatchObject([
        { id: '1', refused: { code: 'act-not-yours' } },
        { id: '2', refused: { code: 'act-not-yours' } },
      ]);
    },
  );

  it('that is only ever refused is let go', () => {
    const { socket, screen } = screenOf();
    for (let count = 0; count <= 201; count += 1) screen.receive('nonsense');
    expect(socket.closedWith).toBe(1008);
  });
});

it('an act that meets a mistake of ours is refused and ends nothing', async () => {
  const said = vi.spyOn(console, 'error').mockImplementation(() => {});
  const { socket, screen } = screenOf('architect', () =>
    Promise.reject(new TypeError('a mistake')),
  );
  screen.receive('{"type":"act","id":"1","act":{"kind":"begin-shift"}}');
  await vi.waitFor(() => expect(socket.sent).toHaveLength(1));
  expect(JSON.parse(socket.sent[0]!)).toMatchObject({
    id: '1',
    refused: { code: 'program-fault' },
  });
  expect(said).toHaveBeenCalledOnce();
  said.mockRestore();
});
