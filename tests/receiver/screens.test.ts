import { describe, expect, it, vi } from 'vitest';
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

function greetedScreen(act = () => Promise.resolve()) {
  const socket = new FakeSocket();
  const screen = new Screen(socket, act, () => {});
  screen.receive('{"type":"hello","version":1,"name":"A","role":"architect"}');
  return { socket, screen };
}

const PICTURE = { whole: () => 'whole', news: () => 'news' };

describe('a screen', () => {
  it('is sent the whole picture first, then the news', () => {
    const { socket, screen } = greetedScreen();
    for (let count = 0; count < 3; count += 1) screen.sendLive(PICTURE);
    expect(socket.sent).toEqual(['whole', 'news', 'news']);
  });

  it('that is slow misses pictures, is never queued for, and then gets the whole again', () => {
    const { socket, screen } = greetedScreen();
    screen.sendLive(PICTURE);
    socket.waitingBytes = 300 * 1024;
    for (let count = 0; count < 50; count += 1) screen.sendLive(PICTURE);
    socket.waitingBytes = 0;
    screen.sendLive(PICTURE);
    screen.sendLive(PICTURE);
    expect(socket.sent).toEqual(['whole', 'whole', 'news']);
  });

  it('that has taken nothing for megabytes is let go instead of being sent states', () => {
    const { socket, screen } = greetedScreen();
    screen.sendState('state');
    socket.waitingBytes = 9 * 1024 * 1024;
    screen.sendState('state');
    expect(socket.sent).toEqual(['state']);
    expect(socket.closedWith).toBe(1013);
  });

  it('may not act before it has said who it is, nor more than eight things at once', () => {
    const socket = new FakeSocket();
    const never = () => new Promise<void>(() => {});
    const screen = new Screen(socket, never, () => {});
    const act = (id: number) =>
      screen.receive(`{"type":"act","id":"${id}","act":{"kind":"begin-shift"}}`);
    act(0);
    expect(JSON.parse(socket.sent[0]!)).toMatchObject({
      id: '0',
      refused: { code: 'act-not-now' },
    });
    screen.receive('{"type":"hello","version":1,"name":"A","role":"architect"}');
    for (let id = 1; id <= 9; id += 1) act(id);
    expect(socket.sent.slice(1).map((text) => JSON.parse(text))).toMatchObject([
      { id: '9', refused: { code: 'act-not-now' } },
    ]);
  });

  it('that is only ever refused is let go', () => {
    const { socket, screen } = greetedScreen();
    for (let count = 0; count <= 201; count += 1) screen.receive('nonsense');
    expect(socket.closedWith).toBe(1008);
  });
});

it('an act that meets a mistake of ours is refused and ends nothing', async () => {
  const said = vi.spyOn(console, 'error').mockImplementation(() => {});
  const { socket, screen } = greetedScreen(() => Promise.reject(new TypeError('a mistake')));
  screen.receive('{"type":"act","id":"1","act":{"kind":"begin-shift"}}');
  await vi.waitFor(() => expect(socket.sent).toHaveLength(1));
  expect(JSON.parse(socket.sent[0]!)).toMatchObject({
    id: '1',
    refused: { code: 'program-fault' },
  });
  expect(said).toHaveBeenCalledOnce();
  said.mockRestore();
});
