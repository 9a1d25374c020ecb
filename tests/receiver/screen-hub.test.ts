import { EventEmitter } from 'node:events';
import { describe, expect, it } from 'vitest';
import type { WebSocket } from 'ws';
import type { SessionState } from '#core/session/session.ts';
import type { Act, LivePicture } from '#core/wire/screen-message.ts';
import { ScreenHub } from '#receiver/screen-hub.ts';
import { Traces } from '#receiver/traces.ts';
import { aDay } from '#tests/core/session/a-day.ts';

class Socket extends EventEmitter {
  bufferedAmount = 0;
  readonly sent: string[] = [];
  send(text: string): void {
    this.sent.push(text);
  }
  close(): void {}
  said(): string {
    return this.sent.splice(0).join('\n');
  }
  say(message: object): void {
    this.emit('message', Buffer.from(JSON.stringify(message)), false);
  }
}

const day = aDay({ states: 3 });
const heelDeg = day.states[2]!.reading!.joined.heelDeg;
const earlierDeg = day.states[1]!.reading!.joined.heelDeg;
const LIVE_DEG = 1.23456789;
const live = (whole: boolean): LivePicture => ({
  ...{ type: 'live', receiverS: 9, wall: '2026-05-04T09:00:00.000Z', whole, notUsed: [] },
  instruments: [
    {
      ...{ instrument: 'i', label: 'fore', verdict: 'steady', reason: '', refused: null },
      ...{ estimate: null, temperatureC: null, trace: { atS: [9], heelDeg: [LIVE_DEG] } },
    },
  ],
  joined: {
    ...{ verdict: 'steady', reason: '', estimate: null, readable: true, whyNot: null },
    ...{ countedS: 60, inAMinuteDeg: null, remainingS: 0 },
  },
  ...{ simulation: null, notRecording: null, stations: [] },
  saved: { wall: '2026-05-04T09:00:00.000Z', line: 3, head: '00' },
});

function hubOf() {
  const acts: Act[] = [];
  let session: SessionState = day;
  const hub = new ScreenHub(() => session, {
    act: (act) => {
      acts.push(act);
      return Promise.resolve();
    },
    access: () => ({ type: 'people', people: [] }),
    reduction: () => null,
  });
  const come = (key: string, blind: boolean, role: 'architect' | 'witness' = 'architect') => {
    const socket = new Socket();
    hub.connect(socket as unknown as WebSocket, { name: 'A', role }, { key, blind });
    return socket;
  };
  const news = (): void => {
    session = { ...day };
    hub.sessionSaved();
    hub.sendPicture(live, new Traces());
  };
  const readBy = (socket: Socket): boolean | undefined => {
    const reading = {
      ...{ state: 2, instrument: 'P', kind: 'pendulum', lengthMm: 2500, extremesMm: [1] },
      reader: 'R. Vane',
    };
    socket.say({ type: 'act', id: 'a', act: { kind: 'hand-reading', reading } });
    const act = acts.at(-1);
    return act?.kind === 'hand-reading' ? act.reading.blind : undefined;
  };
  return { come, news, readBy };
}

describe('all screens', () => {
  it.each([
    { who: 'a screen as any', blind: false, role: 'architect', told: true },
    {
      who: 'one that reads by eye from its first message on',
      blind: true,
      role: 'architect',
      told: false,
    },
    { who: 'a witness who asks for it', blind: true, role: 'witness', told: true },
  ] as const)('tell the heel of the last state to $who: $told', ({ blind, role, told }) => {
    const { come, news } = hubOf();
    const socket = come('k', blind, role);
    news();
    const said = socket.said();
    expect(said).toContain(String(earlierDeg));
    expect(said.includes(String(heelDeg))).toBe(told);
    expect(said.includes(String(LIVE_DEG))).toBe(told);
  });

  it('have a reading recorded blind only while no window of that browser was told', () => {
    const { come, news, readBy } = hubOf();
    const byEye = come('one', true);
    const another = come('another', false);
    news();
    expect(readBy(byEye)).toBe(true);
    expect(readBy(another)).toBe(false);
    come('one', false);
    expect(readBy(byEye)).toBe(false);
  });

  it('tell it when reading by eye is over, and no reading after that is blind', () => {
    const { come, readBy } = hubOf();
    const socket = come('k', true);
    expect(socket.said()).not.toContain(String(heelDeg));
    socket.say({ type: 'blind', id: 'b', blind: false });
    expect(socket.said()).toContain(String(heelDeg));
    socket.say({ type: 'blind', id: 'c', blind: true });
    expect(socket.said()).not.toContain(String(heelDeg));
    expect(readBy(socket)).toBe(false);
  });
});
