import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { PERSON_ROLES, type PersonRole, ROLES_OF_ACT } from '#core/wire/role-acts.ts';
import type { Act } from '#core/wire/screen-message.ts';
import { lanAddresses } from '#receiver/access/addresses.ts';
import { MOST_OF_ROLE } from '#receiver/access/entrance.ts';
import { tlsCertificate } from '#receiver/access/tls-certificate.ts';
import type { Dock } from '#receiver/dock.ts';
import { MACHINE_CLOCK } from '#receiver/machine-clock.ts';
import { CERTIFICATE } from '#tests/support/every-kind-record.ts';
import { openTestDock } from '#tests/support/open-dock.ts';
import { PersonKey } from '#tests/support/person-key.ts';
import { type Program, pause, startProgram, until } from '#tests/support/programs.ts';
import { askedIn, invited, letIn, sameReceiverAt } from '#tests/support/receiver-access.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';
import { helloOf, StationClient } from '#tests/support/station-client.ts';

let folder = '';
let recordPath = '';
let dock: Dock;
const running: Program[] = [];
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'people-'));
  recordPath = join(folder, 'day.hwr');
  dock = await openTestDock({ folder, recordPath });
});
afterEach(async () => {
  for (const program of running.splice(0)) await program.kill();
  await dock.close();
  rmSync(folder, { recursive: true });
});

const LINE = 0;
const KEY = new PersonKey('anybody');
/** One of each act, well formed; whether it belongs here and now is another matter. */
const ACTS: { readonly [K in Act['kind']]: Extract<Act, { kind: K }> } = {
  'begin-shift': { kind: 'begin-shift' },
  'weight-landed': { kind: 'weight-landed' },
  'take-reading': { kind: 'take-reading' },
  'void-reading': { kind: 'void-reading', line: LINE, reason: 'x' },
  correct: {
    kind: 'correct',
    correction: { line: LINE, changes: [{ field: ['record'], was: 'a', is: 'b' }], reason: 'x' },
  },
  overrule: { kind: 'overrule', line: LINE, reason: 'x' },
  'replace-certificate': { kind: 'replace-certificate', certificate: CERTIFICATE, reason: 'x' },
  'remount-instrument': {
    kind: 'remount-instrument',
    instrument: 'fore',
    certificate: null,
    reason: 'x',
  },
  'confirm-sign': {
    kind: 'confirm-sign',
    told: { instrument: 'fore', beforeDeg: 0, pushedDeg: 0.3, seal: null },
  },
  'look-for-roll': { kind: 'look-for-roll', marked: null },
  'tell-roll-condition': {
    kind: 'tell-roll-condition',
    told: { condition: 'x', draughtM: null, earlier: [] },
  },
  'refuse-roll-run': { kind: 'refuse-roll-run', line: LINE, reason: 'x' },
  'hand-reading': {
    kind: 'hand-reading',
    reading: {
      state: 0,
      instrument: 'pendulum',
      kind: 'pendulum',
      lengthMm: 3000,
      extremesMm: [1, 2],
      reader: 'x',
    },
  },
  enter: {
    kind: 'enter',
    entry: {
      sheet: 'water',
      occasion: 'before',
      key: 'amidships',
      value: { densityKgM3: 1020, temperatureC: null },
      was: null,
      fromPaper: false,
    },
  },
  photograph: { kind: 'photograph', photograph: { of: null, caption: '', jpeg: '/9g=' } },
  'mark-time': { kind: 'mark-time', words: '' },
  remark: { kind: 'remark', text: 'x', line: null },
  'postpone-test': { kind: 'postpone-test', reason: 'x' },
  'resume-test': { kind: 'resume-test', reason: 'x' },
  'close-test': { kind: 'close-test', reason: 'x' },
  ask: { kind: 'ask', what: 'objection', text: 'x', line: null },
  'answer-witness': { kind: 'answer-witness', line: LINE, text: 'x' },
  'take-receipt': {
    kind: 'take-receipt',
    ...KEY.receipt('no-record', { lines: 1, head: 'ab'.repeat(32) }),
  },
  seal: { kind: 'seal', reason: 'x' },
  sign: { kind: 'sign', ...KEY.signature('no-record', LINE, 'ab'.repeat(32)) },
  'technician-work': { kind: 'technician-work', allowed: true, reason: 'x' },
  'simulate-sway': { kind: 'simulate-sway' },
  simulation: {
    kind: 'simulation',
    pace: 1,
    disturbances: { wind: false, gusts: false, wakes: false, walking: false, snaggedLine: false },
  },
};

describe('every role against every act', () => {
  it.each(PERSON_ROLES)('%s', async (role) => {
    const screen = await ScreenClient.connect(dock.port, role);
    const before = readFileSync(recordPath, 'utf8');
    for (const act of Object.values(ACTS)) {
      // What ends the test comes last by its place in the table; it must not forbid the rest.
      if (act.kind === 'close-test') continue;
      const refused = await screen.act(act);
      const allowed = ROLES_OF_ACT[act.kind].includes(role);
      expect([act.kind, refused === 'act-not-yours']).toEqual([act.kind, !allowed]);
    }
    const closed = await screen.act(ACTS['close-test']);
    expect(closed).toBe(role === 'architect' ? null : 'act-not-yours');
    const written = readFileSync(recordPath, 'utf8').slice(before.length);
    for (const line of written.split('\n').filter(Boolean)) {
      const { kind, role: by } = JSON.parse(line) as { kind: string; role: string };
      // Nothing stands in the record under another role than the one that acted.
      expect([kind, ['receiver', role].includes(by)]).toEqual([kind, true]);
    }
    screen.close();
  });
});

describe('coming in', () => {
  it('is needed for everything: an unknown socket is told nothing, whatever it sends', async () => {
    const url = `ws://127.0.0.1:${dock.port}`;
    for (const path of ['/screen', '/device'])
      for (const text of [
        '{"type":"act","id":"1","act":{"kind":"remark","text":"x","line":null}}',
        '{"type":"invite","id":"1","role":"architect"}',
        JSON.stringify({ type: 'token', version: 1, token: 'F'.repeat(43), name: '' }),
      ]) {
        const heard: string[] = [];
        const socket = new WebSocket(url + path);
        socket.on('message', (data) => heard.push(String(data)));
        socket.on('open', () => {
          socket.send(text);
          socket.send(text);
        });
        await new Promise((resolve) => socket.once('close', resolve));
        expect(heard).toHaveLength(1);
        expect(JSON.parse(heard[0]!)).toMatchObject({ type: 'not-admitted' });
      }
  });

  it('takes one message of a kilobyte within five seconds; three of one address wait at once', async () => {
    const open = async () => {
      const socket = new WebSocket(`ws://127.0.0.1:${dock.port}/screen`);
      socket.on('error', () => {});
      await new Promise((resolve) => socket.once('open', resolve));
      return socket;
    };
    const large = await open();
    const ended = new Promise((resolve) => large.once('close', resolve));
    large.send('x'.repeat(100_000));
    await ended;

    const closed: number[] = [];
    for (let k = 0; k < 5; k++) {
      const socket = await open();
      socket.once('close', () => closed.push(k));
    }
    await until('the oldest two made room', () => closed.length === 2);
    expect(closed.sort()).toEqual([0, 1]);
    const heardMs = performance.now();
    await until('the rest are ended', () => closed.length === 5);
    expect(performance.now() - heardMs).toBeLessThan(7000);
  });

  it('goes through the door of the role: no board side at the screens, no person at the boards', async () => {
    const url = `ws://127.0.0.1:${dock.port}`;
    const { code } = await invited(dock.port, 'device');
    const message = { type: 'invited', version: 1, code, name: '' } as const;
    expect((await askedIn(`${url}/screen`, message)).answer).toMatchObject({
      code: 'access-not-here',
    });
  });

  it('has a place for so many of a role, and one that leaves makes room', async () => {
    const all: ScreenClient[] = [];
    for (let k = 0; k < MOST_OF_ROLE.technician; k++)
      all.push(await ScreenClient.connect(dock.port, 'technician'));
    await expect(ScreenClient.connect(dock.port, 'technician')).rejects.toThrowError(/access-full/);
    const architect = await ScreenClient.connect(dock.port);
    architect.close();
    all[0]?.close();
    await pause(100);
    const again = await ScreenClient.connect(dock.port, 'technician');
    for (const one of [...all, again]) one.close();
  });

  it('stays good over a restart, until it is withdrawn; who is inside is put out', async () => {
    const witness = await ScreenClient.connect(dock.port, 'witness', 'M. Quill');
    await until('the state', () => witness.state !== null);
    const { port } = dock;
    witness.close();
    await dock.close();
    dock = await openTestDock({ folder, recordPath, test: null });
    sameReceiverAt(dock.port, port);
    const back = await ScreenClient.connect(dock.port, 'witness', 'M. Quill');
    await until('the state', () => back.state !== null);
    const known = back.state!.people.admitted.findLast(({ role }) => role === 'witness');
    expect(known).toMatchObject({ name: 'M. Quill', way: 'this machine', withdrawn: null });

    const { socket } = await letIn(dock.port, 'architect', 'E. Thorne');
    const put = new Promise<number>((resolve) => back.socket.once('close', resolve));
    socket.send(JSON.stringify({ type: 'withdraw', id: '1', person: known!.person }));
    expect(await put).toBe(1008);
    await expect(ScreenClient.connect(dock.port, 'witness')).rejects.toThrowError(/access-unknown/);
    socket.terminate();
  });
});

describe('witness and architect', () => {
  it('ask and answer, receipt, seal and sign, each as a line both see', async () => {
    const architect = await ScreenClient.connect(dock.port);
    const witness = await ScreenClient.connect(dock.port, 'witness', 'M. Quill');
    await until('both see', () => architect.live !== null && witness.live !== null);
    expect(await witness.act({ kind: 'ask', what: 'repeat', text: 'again', line: 1 })).toBeNull();
    await until('it is open', () => architect.state?.people.asks[0]?.answers.length === 0);
    const { line } = architect.state!.people.asks[0]!.written;
    expect(await architect.act({ kind: 'answer-witness', line, text: 'yes' })).toBeNull();
    expect(await architect.act({ kind: 'answer-witness', line: 0, text: 'no' })).toBe(
      'act-not-now',
    );
    await until('it is answered', () => witness.state?.people.asks[0]?.answers.length === 1);

    const key = new PersonKey('M. Quill');
    const record = dock.record.id;
    const { lines, head } = dock.record.saved;
    const receipt = { kind: 'take-receipt', ...key.receipt(record, { lines, head }) } as const;
    expect(await witness.act({ ...receipt, head: 'ab'.repeat(32) })).toBe('receipt-not-ours');
    expect(await witness.act({ ...receipt, publicKey: new PersonKey('x').publicKey })).toBe(
      'record-signature',
    );
    expect(await witness.act(receipt)).toBeNull();

    expect(await architect.act({ kind: 'seal', reason: 'the readings are taken' })).toBeNull();
    expect(await architect.act(ACTS.remark)).toBeNull();
    await until('its digest is known', () => witness.state?.people.seals[0]?.digest != null);
    const seal = witness.state!.people.seals[0]!;
    const sign = {
      kind: 'sign',
      ...key.signature(record, seal.written.line, seal.digest!),
    } as const;
    expect(await witness.act({ ...sign, publicKey: new PersonKey('x').publicKey })).toBe(
      'record-signature',
    );
    expect(await witness.act(sign)).toBeNull();
    expect(await witness.act(sign)).toBe('act-not-now');
    await until('signed', () => architect.state?.people.seals[0]?.signatures.length === 1);
    architect.close();
    witness.close();
  });
});

describe('a board side', () => {
  it('shows that it has the key of the station it says it is, on this very connection', async () => {
    const station = await StationClient.connect(dock.port);
    const hello = helloOf(station.challenge, 'station-1', 'run-1');
    station.send(hello);
    await until('a welcome', () => station.heard.some(({ type }) => type === 'welcome'));

    const replay = await StationClient.connect(dock.port);
    expect(await replay.refusalOf(hello)).toBe('station-not-the-one');
    await until('it is let go', () => replay.closedWith !== null);
    const other = await StationClient.connect(dock.port);
    const claims = helloOf(other.challenge, 'station-2', 'run-1');
    expect(await other.refusalOf({ ...claims, station: 'station-1' })).toBe('station-not-the-one');
    // With a key of its own, rightly signed, under another's name.
    const third = await StationClient.connect(dock.port);
    const stolen = helloOf(third.challenge, 'station-1', 'run-2', {}, 'station-2');
    expect(await third.refusalOf(stolen)).toBe('station-not-the-one');
    station.close();
  });
});

describe('TLS', () => {
  it('lets every role in from the network, and plain http the witness alone', async () => {
    const addresses = lanAddresses().map(({ address }) => address);
    const tls = await tlsCertificate(folder, addresses, MACHINE_CLOCK.wallMs());
    await dock.close();
    dock = await openTestDock({ folder, recordPath, test: null, lan: true, tls });
    const health = await new Promise<string>((resolve, reject) => {
      const asked = request(
        { host: '127.0.0.1', port: dock.tlsPort, path: '/health', ca: tls.certificate },
        (response) => response.on('data', (bytes: Buffer) => resolve(String(bytes))),
      );
      asked.on('error', reject);
      asked.end();
    });
    expect(JSON.parse(health)).toMatchObject({ program: 'heelwright' });
    const tries = async (url: string, role: PersonRole) => {
      const { code } = await invited(dock.port, role);
      const { socket, answer } = await askedIn(url, {
        type: 'invited',
        version: 1,
        code,
        name: '',
      });
      socket.terminate();
      return answer.type === 'admitted' ? answer.role : answer.code;
    };
    const [address = '127.0.0.1'] = addresses;
    const plain = `ws://${address}:${dock.port}/screen`;
    const secure = `wss://${address}:${dock.tlsPort}/screen`;
    const here = address === '127.0.0.1';
    expect(await tries(plain, 'witness')).toBe('witness');
    expect(await tries(plain, 'architect')).toBe(here ? 'architect' : 'access-not-here');
    for (const role of PERSON_ROLES) expect(await tries(secure, role)).toBe(role);
  });

  it('is held by a board side to the key it was told, before it says anything', async () => {
    const tls = await tlsCertificate(folder, [], MACHINE_CLOCK.wallMs());
    await dock.close();
    recordPath = join(folder, 'other.hwr');
    const paced = true;
    dock = await openTestDock({ folder, recordPath, test: null, lan: true, tls, paced });
    const boards = (data: string, ...more: string[]) => {
      const program = startProgram('device', [
        ...['log', '--emulated', '--json', '--data', join(folder, data)],
        ...['--receiver', `wss://127.0.0.1:${dock.tlsPort}`, ...more],
      ]);
      running.push(program);
      return program;
    };
    const pair = () => ['--pair', dock.access.codeAtStart('device')];
    const wrong = boards('wrong', '--pin', '0f'.repeat(32), ...pair());
    await wrong.says(/receiver-not-the-one/);
    expect(dock.stations()).toEqual([]);
    await wrong.kill();
    const right = boards('right', '--pin', tls.keyFingerprint, ...pair());
    await until('it is connected', () => dock.stations().some(({ connected }) => connected));
    await right.kill();
    // The pin and the token are kept: it needs to be told neither again.
    const again = boards('right');
    await again.says(/"event":"receiver"/);
    await again.kill();
  });
});
