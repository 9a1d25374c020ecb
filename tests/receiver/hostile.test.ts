import { mkdtempSync, rmSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FAULTS } from '#core/fault/fault.ts';
import { PERSON_ROLES } from '#core/wire/role-acts.ts';
import type { Dock } from '#receiver/dock.ts';
import { hostileMessages } from '#tests/support/hostile-messages.ts';
import { openTestDock } from '#tests/support/open-dock.ts';
import { until } from '#tests/support/programs.ts';
import { type AskedIn, letIn } from '#tests/support/receiver-access.ts';
import { blockBody, OPENED_BODY, STREAM } from '#tests/support/record-lines.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';
import { helloOf, StationClient } from '#tests/support/station-client.ts';

/** Messages a route at a commit; the trial asks for more, with seeds of its own. */
const MESSAGES = Number(process.env['HEELWRIGHT_HOSTILE_MESSAGES'] ?? '5000');
const SEED = Number(process.env['HEELWRIGHT_FIRST_SEED'] ?? '31');
const HANDSHAKES = MESSAGES * 2;
const BATCH = 100;
const WITHIN_MS = 60_000 + MESSAGES * 10;

let folder = '';
let dock: Dock;
let station: StationClient;
let blocks = 0;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'hostile-'));
  dock = await openTestDock({ folder, recordPath: join(folder, 'day.hwr'), mostRefusals: 1e9 });
  station = await StationClient.connect(dock.port);
  station.send(helloOf(station.challenge, 'station-1', 'run-1'));
  station.send(OPENED_BODY);
  console.log(`hostile messages: seed ${SEED}, ${MESSAGES} a route`);
});
afterAll(async () => {
  station.close();
  await dock.close();
  rmSync(folder, { recursive: true });
});

/** The stream beside it all: the next block goes through and is acknowledged. */
async function streamIsUnharmed(): Promise<void> {
  blocks += 1;
  station.send(blockBody(blocks, 10 * (blocks - 1)));
  await until('the stream goes on', () => station.acknowledged(STREAM) === blocks);
}

/** Sends all messages over one connection after another; every refusal must bear a known code. */
async function sendAll(open: () => Promise<AskedIn>, seed: number): Promise<Set<string>> {
  const codes = new Set<string>();
  const messages = hostileMessages(seed, MESSAGES);
  let probed = '';
  const join = async () => {
    const asked = await open();
    asked.hear((data) => {
      const text = String(data);
      const { type, code, refused, found } = JSON.parse(text) as {
        type: string;
        code?: string;
        found?: string;
        refused?: { code: string; found: string } | null;
      };
      const told = type === 'invitation' ? undefined : (refused?.code ?? code);
      if (told !== undefined) codes.add(told);
      if ((refused?.found ?? found)?.includes('probe-')) probed = refused?.found ?? found ?? '';
    });
    return asked.socket;
  };
  let socket = await join();
  for (let sent = 0; sent < MESSAGES; sent += BATCH) {
    for (const message of messages.slice(sent, sent + BATCH)) {
      if (socket.readyState !== socket.OPEN) socket = await join();
      socket.send(message);
    }
    const probe = `probe-${sent}`;
    await until('it is heard to the end', () => {
      if (probed.includes(probe)) return true;
      if (socket.readyState === socket.OPEN) socket.send(`{"type":"${probe}"}`);
      return socket.readyState !== socket.OPEN;
    });
    if (socket.readyState !== socket.OPEN) socket = await join();
  }
  socket.terminate();
  return codes;
}

describe('hostile messages get a coded answer, and the stream goes on', () => {
  it.each(PERSON_ROLES)(
    'from a screen let in as %s',
    async (role) => {
      const codes = await sendAll(() => letIn(dock.port, role, 'X'), SEED);
      for (const code of codes) expect(FAULTS).toHaveProperty(code);
      expect(codes).toContain('message-malformed');
      expect(codes).not.toContain('program-fault');
      await streamIsUnharmed();
    },
    WITHIN_MS,
  );

  it.each([
    ['greeted', true],
    ['let in and not yet greeted', false],
  ])(
    'from a board side that has %s',
    async (_name, greets) => {
      const codes = await sendAll(async () => {
        const { admitted, ...asked } = await letIn(dock.port, 'device', '');
        if (greets)
          asked.socket.send(JSON.stringify(helloOf(admitted.challenge, 'station-9', 'run-1')));
        return asked;
      }, SEED + 1);
      for (const code of codes) expect(FAULTS).toHaveProperty(code);
      expect(codes).toContain('message-malformed');
      expect(codes).not.toContain('program-fault');
      await streamIsUnharmed();
    },
    WITHIN_MS,
  );

  it(
    'from a connection that has not said who it is, at both doors',
    () => {
      const door = dock.access.doorkeeper;
      const way = { address: '10.0.0.9', loopback: false, secure: false };
      const codes = new Set<string>();
      for (const message of hostileMessages(SEED + 2, MESSAGES)) {
        try {
          door.admit(String(message), way);
          throw new Error(`let in by ${String(message).slice(0, 200)}`);
        } catch (error) {
          codes.add((error as { code?: string }).code ?? String(error));
        }
      }
      for (const code of codes) expect(FAULTS).toHaveProperty(code);
    },
    WITHIN_MS,
  );
});

it(
  'slow handshakes by the thousand hold nothing but each other up',
  async () => {
    const open = new Set<Socket>();
    for (let begun = 0; begun < HANDSHAKES; begun += 1) {
      const socket = connect(dock.port, '127.0.0.1');
      socket.on('error', () => {});
      socket.on('close', () => open.delete(socket));
      socket.write('GET /screen HTTP/1.1\r\nHost: 127.0.0.1\r\nUpgr');
      open.add(socket);
      if (begun % 200 === 199) await new Promise((resolve) => setImmediate(resolve));
      if (begun % 2000 === 1999) {
        await streamIsUnharmed();
        const screen = await ScreenClient.connect(dock.port);
        await until('a screen still comes in', () => screen.live !== null);
        screen.close();
      }
    }
    for (const socket of open) socket.destroy();
    await streamIsUnharmed();
  },
  WITHIN_MS,
);
