import { describe, expect, it, vi } from 'vitest';
import type { PersonRole } from '#core/wire/role-acts.ts';
import type { PeopleMessage } from '#core/wire/screen-message.ts';
import { BlindPart } from '#receiver/blind-part.ts';
import { type ActHandler, Screen, type ScreenSocket } from '#receiver/screens.ts';

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

const STATE = { all: () => 'all', blind: () => 'part', states: [0, 1] };

function screenOf(
  role: PersonRole = 'architect',
  act: ActHandler = () => Promise.resolve(),
  seen = new Set<number>(),
) {
  const socket = new FakeSocket();
  const sight = new BlindPart(seen, false);
  const handlers = {
    act,
    access: () => PEOPLE,
    state: () => STATE,
    reduction: () => 'reduced',
  };
  const screen = new Screen(socket, { name: 'A', role }, sight, handlers);
  return { socket, screen };
}

const PICTURE = {
  whole: () => 'whole',
  news: () => 'news',
  blind: () => 'no heel',
  state: 2 as number | null,
};

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

  it('that reads by eye is sent no heel from the moment it says so until it says otherwise', () => {
    const { socket, screen } = screenOf();
    screen.sendLive(PICTURE);
    screen.receive('{"type":"blind","id":"1","blind":true}');
    screen.sendLive(PICTURE);
    screen.sendState(STATE);
    screen.receive('{"type":"blind","id":"2","blind":false}');
    screen.sendLive(PICTURE);
    screen.sendLive(PICTURE);
    const answer = (id: string) => `{"type":"answer","id":"${id}","refused":null}`;
    expect(socket.sent).toEqual([
      ...['whole', 'part', answer('1'), 'no heel', 'part'],
      ...['all', 'reduced', answer('2'), 'whole', 'news'],
    ]);
  });

  it('has its hand reading recorded blind by what it was sent, whatever it says for itself', () => {
    const recorded: unknown[] = [];
    const seen = new Set<number>();
    const act: ActHandler = (one) => {
      if (one.kind === 'hand-reading') recorded.push(one.reading.blind);
      return Promise.resolve();
    };
    const { screen } = screenOf('architect', act, seen);
    const read = (state: number, blind: boolean) =>
      screen.receive(
        JSON.stringify({
          type: 'act',
          id: 'r',
          act: {
            kind: 'hand-reading',
            reading: {
              ...{ state, instrument: 'P', kind: 'pendulum', lengthMm: 2500 },
              ...{ extremesMm: [1], reader: 'R', blind },
            },
          },
        }),
      );
    screen.receive('{"type":"blind","id":"1","blind":true}');
    screen.sendLive(PICTURE);
    screen.sendState(STATE);
    read(2, true);
    read(2, false);
    screen.receive('{"type":"blind","id":"2","blind":false}');
    read(1, true);
    read(2, true);
    screen.sendLive({ ...PICTURE, state: null });
    read(2, true);
    screen.sendLive(PICTURE);
    read(2, true);
    expect(recorded).toEqual([true, false, false, true, true, false]);
    expect([...seen]).toEqual([0, 1, 2]);
  });

  it.each(['witness', 'technician'] as const)('keeps nothing from a %s', (role) => {
    const { socket, screen } = screenOf(role);
    screen.receive('{"type":"blind","id":"1","blind":true}');
    screen.sendLive(PICTURE);
    expect(JSON.parse(socket.sent[0]!)).toMatchObject({ refused: { code: 'act-not-yours' } });
    expect(socket.sent.slice(1)).toEqual(['whole']);
  });

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

it('sends the day reduced, but not to one who reads by eye until they say they are done', () => {
  const { socket, screen } = screenOf();
  screen.sendReduction();
  expect(socket.sent).toEqual(['reduced']);
  screen.receive(JSON.stringify({ type: 'blind', id: '1', blind: true }));
  screen.sendReduction();
  expect(socket.sent.filter((text) => text === 'reduced')).toHaveLength(1);
  screen.receive(JSON.stringify({ type: 'blind', id: '2', blind: false }));
  expect(socket.sent.filter((text) => text === 'reduced')).toHaveLength(2);
});
