import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import sirv from 'sirv';
import { type WebSocket, WebSocketServer } from 'ws';
import { FAULTS } from '#core/fault/fault.ts';
import { blindSession } from '#core/session/blind-session.ts';
import { entryRefusal } from '#core/session/entry-refusal.ts';
import { enteredHull, withoutHullText } from '#core/session/told-survey.ts';
import type { Verdict } from '#core/steadiness/estimate.ts';
import { type Admitted, fromUnknown } from '#core/wire/access-message.ts';
import { blindPicture } from '#core/wire/blind-picture.ts';
import type { PersonRole } from '#core/wire/role-acts.ts';
import {
  type Act,
  fromScreen,
  type HullMessage,
  type InvitationMessage,
  type LivePicture,
  type ToScreen,
} from '#core/wire/screen-message.ts';
import { FAKE_INSTRUMENTS, type FakeDay } from './fake-day.ts';

/** The strictest policy the real receiver may send: nothing inline, nothing from elsewhere. */
export const STRICT_POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'";

const ROLL_S = 4.7;
const PICTURES_A_SECOND = 10;
const TRACE_S = 120;

/** What a page keeps that the fake lets in, by role: put them where the browser keeps its tokens. */
export const ARCHITECT_TOKEN = 'a'.repeat(43);
export const WITNESS_TOKEN = 'w'.repeat(43);
export const TECHNICIAN_TOKEN = 't'.repeat(43);
const ROLE_OF = new Map<string, PersonRole>([
  [WITNESS_TOKEN, 'witness'],
  [TECHNICIAN_TOKEN, 'technician'],
]);

const FAKE_INVITATION: InvitationMessage = {
  type: 'invitation',
  id: '',
  role: 'witness',
  code: 'i'.repeat(22),
  words: ['harbor', 'ladder', 'mule', 'zero'],
  wordsForS: 120,
  codeForS: 600,
  addresses: [
    { interface: 'wlan0', url: 'http://192.168.7.20:4780/' },
    { interface: 'wlan0', url: 'https://192.168.7.20:4781/' },
    { interface: 'this machine', url: 'http://127.0.0.1:4780/' },
  ],
  fingerprint: Array.from({ length: 32 }, (_, k) =>
    k.toString(16).padStart(2, '0').toUpperCase(),
  ).join(':'),
  keyFingerprint: '0f'.repeat(32),
};

/** What the fake vessel does: settles and steadies by itself, or is held in one verdict. */
export interface FakeWish {
  held: Verdict | null;
  refused: string | null;
  pace: number;
}

export interface FakeReceiver {
  readonly url: string;
  readonly day: FakeDay;
  readonly wish: FakeWish;
  readonly acts: Act[];
  /** Sends the state to every screen, after the test changed the day by hand. */
  tell(): void;
  /** Cuts every screen off; new ones are refused until `answer`. */
  hush(): void;
  answer(): void;
  close(): Promise<void>;
}

/** Serves the built screen and speaks `/screen` like the receiver, from a day made up. */
export async function startFakeReceiver(screenFolder: string, day: FakeDay): Promise<FakeReceiver> {
  const serve = sirv(screenFolder, { dev: true });
  const http = createServer((request, response) => {
    response.setHeader('Content-Security-Policy', STRICT_POLICY);
    serve(request, response);
  });
  const sockets = new WebSocketServer({
    server: http,
    path: '/screen',
    maxPayload: 2 * 1024 * 1024,
  });
  const fake = new Fake(day, sockets);
  await listen(http);
  const timer = setInterval(() => fake.tick(), 1000 / PICTURES_A_SECOND);
  return {
    url: `http://127.0.0.1:${(http.address() as AddressInfo).port}/`,
    day,
    wish: fake.wish,
    acts: fake.acts,
    tell: () => fake.tell(),
    hush: () => fake.hush(true),
    answer: () => fake.hush(false),
    close: async () => {
      clearInterval(timer);
      for (const socket of sockets.clients) socket.terminate();
      sockets.close();
      await new Promise<void>((resolve) => http.close(() => resolve()));
    },
  };
}

function listen(server: Server): Promise<void> {
  return new Promise((resolve) =>
    server.listen(Number(process.env['PORT'] ?? 0), '127.0.0.1', resolve),
  );
}

class Fake {
  readonly wish: FakeWish = { held: null, refused: null, pace: 1 };
  readonly acts: Act[] = [];
  readonly #blind = new WeakSet<WebSocket>();
  #hushed = false;
  #sinceS: number;
  #sampledS: number;

  constructor(
    private readonly day: FakeDay,
    private readonly sockets: WebSocketServer,
  ) {
    this.#sinceS = day.nowS - 75;
    this.#sampledS = day.nowS;
    sockets.on('connection', (socket) => this.#meet(socket));
  }

  tick(): void {
    this.day.nowS += this.wish.pace / PICTURES_A_SECOND;
    const live = this.#picture(this.#sampledS, false);
    this.#sampledS = this.day.nowS;
    this.#toAll(live);
  }

  tell(): void {
    this.#toAll({ type: 'state', state: this.day.session });
  }

  #hull(): HullMessage {
    const entered = enteredHull(this.day.session);
    return { type: 'hull', line: entered?.line ?? null, hull: entered?.hull ?? null };
  }

  hush(hushed: boolean): void {
    this.#hushed = hushed;
    if (hushed) for (const socket of this.sockets.clients) socket.terminate();
  }

  #meet(socket: WebSocket): void {
    if (this.#hushed) {
      socket.terminate();
      return;
    }
    socket.once('message', (bytes: Buffer) => {
      const first = fromUnknown.parse(JSON.parse(bytes.toString('utf8')));
      const token = first.type === 'token' ? first.token : ARCHITECT_TOKEN;
      const role = ROLE_OF.get(token) ?? 'architect';
      const name = first.name === '' ? role.charAt(0).toUpperCase() + role.slice(1) : first.name;
      const admitted: Admitted = {
        type: 'admitted',
        role,
        name,
        token: null,
        challenge: 'c'.repeat(43),
      };
      socket.send(JSON.stringify(admitted));
      if (first.blind === true) this.#blind.add(socket);
      this.#say(socket, { type: 'state', state: this.day.session });
      this.#say(socket, this.#hull());
      this.#say(socket, this.#picture(this.day.nowS - TRACE_S, true));
      socket.on('message', (next: Buffer) => this.#hear(socket, next, name, role));
    });
  }

  #hear(socket: WebSocket, bytes: Buffer, name: string, role: PersonRole): void {
    const message = fromScreen.parse(JSON.parse(bytes.toString('utf8')));
    if (message.type === 'invite') {
      send(socket, { ...FAKE_INVITATION, id: message.id, role: message.role });
      return;
    }
    if (message.type === 'withdraw') return;
    if (message.type === 'blind') {
      if (message.blind) this.#blind.add(socket);
      else this.#blind.delete(socket);
      this.#say(socket, { type: 'state', state: this.day.session });
      this.#say(socket, this.#picture(this.day.nowS - TRACE_S, true));
      send(socket, { type: 'answer', id: message.id, refused: null });
      return;
    }
    this.acts.push(message.act);
    const refused = this.#do(message.act, name, role);
    send(socket, { type: 'answer', id: message.id, refused });
    this.tell();
  }

  #do(
    act: Act,
    name: string,
    role: PersonRole,
  ): { code: string; found: string; remedy: string } | null {
    const { day } = this;
    switch (act.kind) {
      case 'begin-shift':
        day.begin(name);
        return null;
      case 'weight-landed':
        day.land(name);
        this.#sinceS = day.nowS;
        return null;
      case 'take-reading':
        if (this.#joined().verdict !== 'steady') {
          return {
            code: 'act-not-steady',
            found: 'the heel is not steady enough to be read.',
            remedy: 'Wait until the screen says steady.',
          };
        }
        day.read(name);
        return null;
      case 'void-reading':
        day.write(
          'reading-voided',
          { line: act.line, reason: act.reason },
          'architect',
          name as 'architect',
        );
        return null;
      case 'correct':
        day.write('correction', act.correction, 'architect', name);
        return null;
      case 'overrule':
        day.write('overruled', { line: act.line, reason: act.reason }, 'architect', name);
        return null;
      case 'replace-certificate': {
        const { certificate, reason } = act;
        day.write('certificate-replaced', { certificate, reason }, 'technician', name);
        return null;
      }
      case 'remount-instrument': {
        const { instrument, certificate, reason } = act;
        day.write('instrument-remounted', { instrument, certificate, reason }, role, name);
        return null;
      }
      case 'confirm-sign':
        day.write('sign-confirmed', act.told, role, name);
        return null;
      case 'hand-reading':
        day.write('hand-reading', act.reading, 'architect', name);
        return null;
      case 'enter': {
        const refusal = entryRefusal(day.session, act.entry);
        if (refusal !== null) return { ...refusal.report, remedy: FAULTS[refusal.code].remedy };
        day.write('entry', act.entry, 'architect', name);
        if (act.entry.sheet === 'hull') this.#toAll(this.#hull());
        return null;
      }
      case 'photograph':
        day.write('photograph', act.photograph, 'architect', name);
        return null;
      case 'mark-time':
        day.write(
          'time-mark',
          { mark: day.session.timeMarks.length + 1, words: act.words },
          role,
          name,
        );
        return null;
      case 'remark':
        day.write('remark', { text: act.text, line: act.line }, role, name);
        return null;
      case 'ask':
        day.write('witness-asked', { what: act.what, text: act.text, line: act.line }, role, name);
        return null;
      case 'answer-witness':
        day.write('witness-answered', { line: act.line, text: act.text }, role, name);
        return null;
      case 'take-receipt': {
        const { kind: _, ...body } = act;
        day.write('receipt-taken', body, role, name);
        return null;
      }
      case 'seal':
        day.write('seal', { reason: act.reason }, role, name);
        return null;
      case 'sign': {
        const { kind: _, ...body } = act;
        day.write('signature', body, role, name);
        return null;
      }
      case 'technician-work':
        day.write('technician-work', { allowed: act.allowed, reason: act.reason }, role, name);
        return null;
      case 'tell-roll-condition':
        day.write('roll-condition', act.told, 'architect', name);
        return null;
      case 'look-for-roll':
      case 'refuse-roll-run':
      case 'simulate-sway':
        // This vessel only sways in its traces; no test of the screen takes its roll.
        return null;
      case 'postpone-test':
        day.write('test-postponed', { reason: act.reason }, 'architect', name);
        return null;
      case 'resume-test':
        day.write('test-resumed', { reason: act.reason }, 'architect', name);
        return null;
      case 'close-test':
        day.write('test-closed', { reason: act.reason }, 'architect', name);
        return null;
      case 'simulation': {
        const simulation = day.session.simulation;
        if (simulation === null) return null;
        this.wish.pace = act.pace;
        day.write(
          'simulation',
          {
            ...simulation,
            paceAsked: act.pace,
            paceHeld: act.pace,
            disturbances: act.disturbances,
          },
          'simulator',
        );
        return null;
      }
    }
  }

  /** Fifteen seconds to come to rest, then a minute to be counted. */
  #joined(): { verdict: Verdict; countedS: number; remainingS: number } {
    const restS = this.day.nowS - this.#sinceS - 15;
    const countedS = Math.min(Math.max(0, restS), 90);
    const verdict = this.wish.held ?? (restS > 60 ? 'steady' : 'settling');
    return { verdict, countedS, remainingS: Math.max(0, 60 - restS) };
  }

  #heelDeg(atS: number, k: number): number {
    const sinceS = atS - this.#sinceS;
    const ring = sinceS > 0 ? 0.5 * Math.exp(-sinceS / 22) : 0.02;
    const roll = (2 * Math.PI * atS) / ROLL_S;
    const wander = 0.012 * Math.sin(atS / 17 + k) + 0.02 * Math.sin(roll * 1.03 + k);
    const wake =
      this.wish.held === 'disturbed' && atS > this.day.nowS - 14 ? 0.12 * Math.sin(atS * 5 + k) : 0;
    return (
      this.day.restDeg + ring * Math.cos(roll) + wander + wake + 0.003 * Math.sin(atS * 97 + k * 5)
    );
  }

  #picture(fromS: number, whole: boolean): LivePicture {
    const { day, wish } = this;
    const { verdict, countedS, remainingS } = this.#joined();
    const half = countedS < 5 ? null : 0.05 / Math.sqrt(countedS);
    const estimate = (k: number, times: number) =>
      half === null
        ? null
        : {
            heelDeg: day.restDeg + 0.002 * (k - 1),
            standardErrorDeg: (times * half) / 2,
            degreesOfFreedom: 30,
            halfWidth95Deg: times * half,
          };
    const atS: number[] = [];
    for (let s = Math.ceil(fromS * 10); s <= day.nowS * 10; s += 1) atS.push(s / 10);
    const disturbed = wish.held === 'disturbed';
    return {
      type: 'live',
      receiverS: day.nowS,
      wall: day.wall,
      whole,
      instruments: FAKE_INSTRUMENTS.map(({ instrument, label }, k) => ({
        instrument,
        label,
        verdict,
        reason: '',
        estimate: estimate(k, 1.4),
        refused: k === 2 ? wish.refused : null,
        temperatureC: 11.4 + 1.4 * k,
        trace: { atS, heelDeg: atS.map((s) => this.#heelDeg(s, k)) },
      })),
      joined: {
        verdict,
        reason: reasonOf(verdict, remainingS),
        estimate: estimate(1, 1),
        readable: verdict === 'steady',
        inAMinuteDeg: half === null ? null : half / 2.6,
        whyNot: verdict === 'steady' ? null : 'waiting for still water',
        countedS,
        remainingS,
      },
      notUsed: [
        ...(disturbed
          ? [{ fromS: day.nowS - 14, toS: day.nowS, kind: 'wake', instruments: null }]
          : []),
        { fromS: day.nowS - 62, toS: day.nowS - 50, kind: 'wake', instruments: null },
        { fromS: day.nowS - 36, toS: day.nowS - 31, kind: 'knock', instruments: ['aft-incline'] },
      ],
      simulation: {
        paceAsked: day.session.simulation?.paceAsked ?? 1,
        paceHeld: day.session.simulation?.paceHeld ?? 1,
        carrying: [],
        settledState: Math.max(0, day.session.states.length - 1),
        connected: true,
      },
      notRecording: null,
      saved: {
        wall: day.wall,
        line: day.session.lines,
        head: '7d0f5c1ab94e23d68f10c2ab3347e59d01f6a8827be4c3905d6a1f2e8b90c471',
      },
      stations: [{ station: 'station-a', connected: true, uncertaintyS: 0.0018 }],
    };
  }

  #toAll(message: ToScreen): void {
    for (const socket of this.sockets.clients) this.#say(socket, message);
  }

  /** To a screen at which a pendulum is read by eye, no heel. */
  #say(socket: WebSocket, message: ToScreen): void {
    const blind = this.#blind.has(socket);
    if (blind && message.type === 'live') send(socket, blindPicture(message));
    else if (blind && message.type === 'state')
      send(socket, { ...message, state: blindSession(message.state) });
    else if (message.type === 'state')
      send(socket, { ...message, state: withoutHullText(message.state) });
    else send(socket, message);
  }
}

function reasonOf(verdict: Verdict, remainingS: number): string {
  if (verdict === 'steady') return '';
  if (verdict === 'settling') return `${Math.ceil(remainingS)} s more to ± 0.006°`;
  if (verdict === 'disturbed') return 'wake, all three instruments';
  return 'no samples arrive';
}

function send(socket: WebSocket, message: ToScreen): void {
  if (socket.readyState === socket.OPEN) socket.send(JSON.stringify(message));
}
