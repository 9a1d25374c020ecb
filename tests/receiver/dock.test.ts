import { closeSync, mkdirSync, mkdtempSync, openSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import type { SessionState } from '#core/session/session.ts';
import { type Dock, openDock } from '#receiver/dock.ts';
import { MACHINE_CLOCK } from '#receiver/machine-clock.ts';
import { scanRecord } from '#receiver/record-scan.ts';
import { until } from '#tests/support/programs.ts';
import { noteCodes, sameReceiverAt } from '#tests/support/receiver-access.ts';
import { blockBody, OPENED_BODY, STREAM, TEST_BODY } from '#tests/support/record-lines.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';
import { CERTIFICATE, helloOf, StationClient } from '#tests/support/station-client.ts';

let folder = '';
let record = '';
let dock: Dock;
const warnings: string[] = [];

async function openedDock(): Promise<Dock> {
  const opened = await openDock({
    recordPath: record,
    port: 0,
    version: 'test',
    screenFolder: join(folder, 'no-screen'),
    machine: MACHINE_CLOCK,
    paced: false,
    test: TEST_BODY,
    estimator: 'test',
    folder,
    lan: false,
    tls: null,
    warn: (error) => warnings.push(error.message),
  });
  noteCodes(opened.port, {
    architect: opened.access.codeAtStart('architect'),
    boards: opened.access.codeAtStart('device'),
  });
  return opened;
}

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'dock-'));
  record = join(folder, 'day.hwr');
  warnings.length = 0;
  dock = await openedDock();
});
afterEach(async () => {
  await dock.close();
  rmSync(folder, { recursive: true });
  expect(warnings).toEqual([]);
});

async function greeted(run = 'run-1'): Promise<StationClient> {
  const station = await StationClient.connect(dock.port);
  station.send(helloOf(station.challenge, 'station-1', run));
  await until('a welcome', () => station.heard.some(({ type }) => type === 'welcome'));
  return station;
}

function replayed(): SessionState {
  let session = EMPTY_SESSION;
  const descriptor = openSync(record, 'r');
  const scan = scanRecord(descriptor, ({ line }) => {
    session = foldLine(session, line);
  });
  closeSync(descriptor);
  expect(scan.fault).toBeNull();
  return session;
}

describe('a board side', () => {
  it('is refused with a code for everything hostile, and its stream goes on', async () => {
    const station = await StationClient.connect(dock.port);
    expect(await station.refusalOf(OPENED_BODY)).toBe('station-not-said');
    expect(await station.refusalOf({ type: 'exchange', sentStationS: 1 })).toBe('station-not-said');
    station.send(helloOf(station.challenge, 'station-1', 'run-1'));
    await until('a welcome', () => station.heard.some(({ type }) => type === 'welcome'));
    station.send(OPENED_BODY);
    const block = blockBody(1, 0);
    const hostile: [unknown, string][] = [
      ['', 'message-malformed'],
      ['{"type":"samples"', 'message-malformed'],
      ['{"type":"fly"}', 'message-unknown'],
      ['[1,2]', 'message-malformed'],
      ['{}', 'message-unknown'],
      [`{"type":"samples","x":${'['.repeat(5000)}${']'.repeat(5000)}}`, 'message-malformed'],
      ['{"type":"exchange","sentStationS":1,"__proto__":{"admin":true}}', 'message-malformed'],
      [JSON.stringify({ type: 'exchange', note: 'x'.repeat(130 * 1024) }), 'message-too-large'],
      [{ ...block, columns: [[1]] }, 'message-malformed'],
      [{ ...block, columns: [...block.columns, block.columns[0]] }, 'message-malformed'],
      [{ ...block, number: 1.5 }, 'message-malformed'],
      [{ ...block, firstBoardUs: -1 }, 'message-malformed'],
      [{ ...block, stream: '../../etc/1' }, 'message-malformed'],
      [{ ...block, stream: 'station-2/board-1/1' }, 'station-not-said'],
      [{ ...block, stream: 'station-1/board-1/9' }, 'stream-unknown'],
      [{ ...block, number: 2 }, 'stream-gap'],
      [JSON.stringify(block, null, 1), 'message-malformed'],
      [{ ...OPENED_BODY, port: 'other' }, 'stream-conflict'],
      [helloOf(station.challenge, 'station-1', 'run-1'), 'message-malformed'],
    ];
    for (const [message, code] of hostile)
      expect([message, await station.refusalOf(message)]).toEqual([message, code]);
    station.send(block);
    await until('the block is acknowledged', () => station.acknowledged(STREAM) === 1);
    expect(replayed().streams).toMatchObject([{ samples: 10 }]);
    station.close();
  });

  it('that sends more than any message may be is let go, and comes back', async () => {
    const first = await greeted();
    first.send('x'.repeat(3 * 1024 * 1024));
    await until('it is let go', () => first.closedWith !== null);
    expect(first.closedWith).toBe(1009);
    const second = await greeted();
    second.send(OPENED_BODY);
    await until('it is heard', () => second.acknowledged(STREAM) === 0);
    second.close();
  });

  it('may send again what it sent before: it stands once and is acknowledged again', async () => {
    const first = await greeted();
    for (const item of [OPENED_BODY, blockBody(1, 0), blockBody(2, 10)]) first.send(item);
    await until('acknowledged', () => first.acknowledged(STREAM) === 2);
    first.close();
    const second = await greeted();
    const welcome = second.heard.find(({ type }) => type === 'welcome');
    expect(welcome).toMatchObject({ acknowledged: [{ stream: STREAM, number: 2 }] });
    second.send(blockBody(1, 0));
    await until('acknowledged again', () => second.acknowledged(STREAM) === 2);
    expect(await second.refusalOf({ ...blockBody(1, 0), skipped: 1 })).toBe('stream-conflict');
    second.send(blockBody(3, 20));
    await until('goes on', () => second.acknowledged(STREAM) === 3);
    expect(replayed().streams).toMatchObject([{ samples: 30 }]);
    second.close();
  });

  it('with the identity of one that is connected is refused, and the first goes on', async () => {
    const first = await greeted('run-1');
    const copy = await StationClient.connect(dock.port);
    expect(await copy.refusalOf(helloOf(copy.challenge, 'station-1', 'run-2'))).toBe(
      'station-twice',
    );
    await until('the copy is let go', () => copy.closedWith !== null);
    first.send(OPENED_BODY);
    await until('the first is heard', () => first.acknowledged(STREAM) === 0);
    // Its own reconnection is no copy.
    const again = await greeted('run-1');
    await until('the old connection is closed', () => first.closedWith !== null);
    again.close();
  });

  it('cannot bring a simulated vessel into a real test', async () => {
    const station = await StationClient.connect(dock.port);
    const simulation = {
      seed: 1,
      paceAsked: 1,
      paceHeld: 1,
      disturbances: {
        wind: false,
        gusts: false,
        wakes: false,
        walking: false,
        snaggedLine: false,
      },
      truth: { gmFluidM: 1, displacementT: 40 },
    };
    const simulated = { simulation, test: { ...TEST_BODY, test: 'another' } };
    expect(
      await station.refusalOf(helloOf(station.challenge, 'station-1', 'run-1', { simulated })),
    ).toBe('simulation-other');
    station.close();
  });
});

describe('a screen', () => {
  it('is refused what is not its turn or not its role, with the code', async () => {
    const architect = await ScreenClient.connect(dock.port);
    const witness = await ScreenClient.connect(dock.port, 'witness', 'The witness');
    expect(await architect.act({ kind: 'begin-shift' })).toBe('act-not-now');
    expect(await architect.act({ kind: 'weight-landed' })).toBe('act-not-now');
    expect(await architect.act({ kind: 'take-reading' })).toBe('act-not-steady');
    expect(await architect.act({ kind: 'void-reading', line: 0, reason: 'x' })).toBe('act-not-now');
    expect(await architect.act({ kind: 'remark', text: 'x', line: 10_000 })).toBe('input-shape');
    expect(await witness.act({ kind: 'close-test', reason: 'x' })).toBe('act-not-yours');
    expect(await witness.act({ kind: 'remark', text: 'I object.', line: 1 })).toBeNull();
    // An answered act is on disk already.
    expect(readFileSync(record, 'utf8')).toContain('I object.');
    await until('both see it', () =>
      [architect, witness].every((screen) => screen.state?.remarks.length === 1),
    );
    expect(architect.state).toEqual(witness.state);
    expect(architect.state).toEqual(replayed());
    architect.close();
    witness.close();
  });

  it('sends nonsense without harm to others', async () => {
    const rogue = await ScreenClient.connect(dock.port);
    const good = await ScreenClient.connect(dock.port);
    for (const text of ['', '{}', '{"type":"act"}', '[['.repeat(100), 'x'.repeat(20_000)])
      rogue.socket.send(text);
    rogue.socket.send(Buffer.from([0, 1, 2]));
    const before = good.liveCount;
    await until('pictures go on', () => good.liveCount > before + 3);
    rogue.close();
    good.close();
  });

  it('that stops reading slows nobody: all is recorded and ten others still get pictures', async () => {
    const screens = await Promise.all(
      Array.from({ length: 10 }, (_, index) =>
        ScreenClient.connect(dock.port, 'witness', `W${index}`),
      ),
    );
    const stalled = await ScreenClient.connect(dock.port);
    stalled.socket.pause();
    const station = await greeted();
    station.send(OPENED_BODY);
    for (let number = 1; number <= 400; number += 1)
      station.send(blockBody(number, (number - 1) * 50, 50));
    await until('all is on disk', () => station.acknowledged(STREAM) === 400);
    const counts = screens.map(({ liveCount }) => liveCount);
    await until('pictures go on', () =>
      screens.every(({ liveCount }, index) => liveCount > counts[index]! + 5),
    );
    expect(replayed().streams).toMatchObject([{ samples: 20_000 }]);
    for (const screen of [...screens, stalled]) screen.close();
    station.close();
  });
});

describe('a record opened again', () => {
  it('stands where it stood, its clock goes on, and its streams with it', async () => {
    const station = await greeted();
    station.send(OPENED_BODY);
    station.send(blockBody(1, 0));
    await until('acknowledged', () => station.acknowledged(STREAM) === 1);
    const screen = await ScreenClient.connect(dock.port);
    expect(
      await screen.act({
        kind: 'hand-reading',
        reading: {
          state: 0,
          instrument: 'midship pendulum',
          kind: 'pendulum',
          lengthMm: 3000,
          extremesMm: [4, 1, 3],
          reader: 'E. Thorne',
        },
      }),
    ).toBeNull();
    const before = replayed();
    const lastS = dock.record.clock.monotonicS();
    screen.close();
    station.close();
    const { port } = dock;
    await dock.close();
    dock = await openedDock();
    sameReceiverAt(dock.port, port);
    expect(dock.record.clock.monotonicS()).toBeGreaterThanOrEqual(lastS - 1);
    const again = await ScreenClient.connect(dock.port);
    await until('the state is shown', () => again.state !== null);
    expect(again.state).toEqual(before);
    const back = await greeted();
    back.send(blockBody(2, 10));
    await until('the stream goes on', () => back.acknowledged(STREAM) === 2);
    again.close();
    back.close();
  });
});

it('a port that is taken is said, and the record is let go', async () => {
  const other = join(folder, 'other.hwr');
  mkdirSync(join(folder, 'other'));
  const settings = {
    recordPath: other,
    version: 'test',
    screenFolder: folder,
    machine: MACHINE_CLOCK,
    paced: false,
    test: null,
    estimator: 'test',
    folder: join(folder, 'other'),
    lan: false,
    tls: null,
    warn: () => {},
  };
  await expect(openDock({ ...settings, port: dock.port })).rejects.toThrowError(/^port-taken/);
  const second = await openDock({ ...settings, port: 0 });
  await second.close();
});

it('counts of a board become heel at receiver time on the screen', async () => {
  const station = await greeted();
  const screen = await ScreenClient.connect(dock.port);
  const heels: (number | null)[] = [];
  const times: number[] = [];
  screen.onLive = (live) => {
    const trace = live.instruments[0]?.trace;
    heels.push(...(trace?.heelDeg ?? []));
    times.push(...(trace?.atS ?? []));
  };
  await until('a first picture', () => screen.liveCount > 0);
  const beganS = dock.record.clock.monotonicS();
  // The station's clock reads 500 s less; its board began with it.
  const stationS = () => dock.record.clock.monotonicS() - 500;
  station.send({ type: 'exchange', sentStationS: stationS() });
  await until('a reply', () => station.heard.some(({ type }) => type === 'exchange-reply'));
  const returned = stationS();
  station.send({ type: 'exchange', sentStationS: stationS(), earlierReturnedStationS: returned });
  station.send(OPENED_BODY);
  station.send({
    type: 'board-clock',
    stream: STREAM,
    number: 1,
    v: 1,
    boardUs: 0,
    stationS: beganS - 500,
    rate: 1,
    uncertaintyS: 0.001,
  });
  for (let number = 2; number <= 6; number += 1)
    station.send(blockBody(number, (number - 2) * 50, 50));
  await until('the trace is shown', () => heels.length >= 35);
  // 100 counts of 0.015 mg (ST DS13005 Rev 7, Table 2, full scale 0.5 g): asin(0.0015).
  const expectedDeg = (Math.asin(100 * 0.015e-3) * 180) / Math.PI;
  for (const heel of heels) if (heel !== null) expect(heel).toBeCloseTo(expectedDeg, 9);
  expect(heels.filter((heel) => heel !== null).length).toBeGreaterThan(30);
  for (const atS of times) {
    expect(atS).toBeGreaterThan(beganS - 0.2);
    expect(atS).toBeLessThan(beganS + 5.2);
  }
  screen.close();
  station.close();
});

describe('certificates of a board side', () => {
  it('take the place of an earlier one with a reason, and never bring an old one back', async () => {
    const first = await greeted();
    const screen = await ScreenClient.connect(dock.port, 'technician');
    const second = { ...CERTIFICATE, number: 'C2', scale: 1.003 };
    const reason = 'calibrated again';
    const replace = { kind: 'replace-certificate', certificate: second, reason } as const;
    // A test is open: a technician works on instruments when the architect has let them.
    expect(await screen.act(replace)).toBe('act-not-now');
    const architect = await ScreenClient.connect(dock.port);
    const allow = {
      kind: 'technician-work',
      allowed: true,
      reason: 'the scale is in doubt',
    } as const;
    expect(await architect.act(allow)).toBeNull();
    expect(await screen.act(replace)).toBeNull();
    architect.close();
    first.socket.close();
    await until('the board side gone', () => dock.stations().every(({ connected }) => !connected));
    await greeted('run-2');
    expect(dock.session().certificates.map(({ number }) => number)).toEqual(['C2']);
    const third = { ...CERTIFICATE, number: 'C3' };
    const other = await StationClient.connect(dock.port);
    other.send(
      helloOf(other.challenge, 'station-2', 'run-1', { mountings: [], certificates: [third] }),
    );
    await until('a welcome', () => other.heard.some(({ type }) => type === 'welcome'));
    const { certificates, replacedCertificates } = dock.session();
    expect(certificates.map(({ number }) => number)).toEqual(['C3']);
    expect(replacedCertificates.map((one) => [one.certificate.number, one.reason])).toEqual([
      ['C1', reason],
      ['C2', 'the board side came with another certificate'],
    ]);
    screen.close();
    await dock.record.whenSaved();
    expect(replayed().certificates).toEqual(certificates);
  });
});
