import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Connection, LinkSender } from '#device/link-sender.ts';
import { Spool } from '#device/spool.ts';
import { until } from './support/test-receiver.ts';

const STREAM = 'station/aft/1';
const ITEM_BYTES = 10_000;
let folder: string;
let spool: Spool;

beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'sender-'));
  spool = await Spool.open({ folder, station: 'station', mostBytes: 1e9 });
});
afterEach(async () => {
  await rm(folder, { recursive: true, force: true });
});

async function fill(count: number): Promise<void> {
  for (let number = 0; number < count; number += 1) {
    const body = { type: 'samples', stream: STREAM, number, fill: 'x'.repeat(ITEM_BYTES) };
    spool.take(
      { stream: STREAM, number, bytes: Buffer.from(JSON.stringify(body)), closes: false },
      false,
    );
    if (number % 100 === 99) await spool.flush();
  }
  await spool.flush();
}

function sending() {
  const sent: number[] = [];
  let queued = 0;
  const sender = new LinkSender({
    spool,
    nowMs: () => 0,
    renew: () => undefined,
    damaged: (error) => {
      throw error;
    },
  });
  const connection: Connection = {
    record: 'record',
    acknowledged: new Map(),
    send: (bytes) => {
      const item: { number: number } = JSON.parse(bytes.toString());
      sent.push(item.number);
      queued += bytes.length;
    },
    queuedBytes: () => queued,
  };
  return { sender, connection, sent, drain: () => (queued = 0), queued: () => queued };
}

const quiet = () => new Promise((resolve) => setTimeout(resolve, 50));

describe('sending over a slow link', () => {
  it('hands the socket about a megabyte, and more only when that is gone', async () => {
    await fill(400);
    const { sender, connection, sent, drain, queued } = sending();
    await sender.connected(connection);
    await until(() => sent.length > 0, 'the first items');
    await quiet();
    const first = sent.length;
    expect(queued()).toBeGreaterThan(1e6);
    expect(queued()).toBeLessThan(1.6e6);
    expect(sender.hasRoom()).toBe(false);
    sender.pump();
    await quiet();
    expect(sent).toHaveLength(first);
    drain();
    sender.pump();
    await until(() => sent.length > first, 'more items');
    expect(sent).toEqual(sent.map((_, k) => k));
  });

  it('stops at four megabytes that nobody acknowledges, and goes on from there', async () => {
    await fill(600);
    const { sender, connection, sent, drain } = sending();
    await sender.connected(connection);
    for (let k = 0; k < 20; k += 1) {
      drain();
      sender.pump();
      await quiet();
    }
    const stopped = sent.length;
    expect(stopped * ITEM_BYTES).toBeGreaterThan(4e6);
    expect(stopped * ITEM_BYTES).toBeLessThan(5e6);
    drain();
    await sender.acknowledged(STREAM, stopped - 1);
    await until(() => sent.length > stopped, 'more items');
    expect(sent).toEqual(sent.map((_, k) => k));
    expect(sender.done).toBe(false);
  });

  it('believes no acknowledgement of what it has not sent', async () => {
    await fill(3);
    const { sender, connection, sent } = sending();
    await sender.connected(connection);
    await until(() => sent.length === 3, 'all items');
    await sender.acknowledged(STREAM, 99);
    expect(sender.done).toBe(false);
    await sender.acknowledged(STREAM, 2);
    expect(sender.done).toBe(true);
  });
});
