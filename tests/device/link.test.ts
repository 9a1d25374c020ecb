import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { StationEvent } from '#device/events.ts';
import { Link } from '#device/link.ts';
import { LinkSender } from '#device/link-sender.ts';
import { machineClock } from '#device/machine-clock.ts';
import { ReceiverAccess } from '#device/receiver-access.ts';
import { Spool } from '#device/spool.ts';
import { StreamWriter } from '#device/stream-writer.ts';
import { sequencesOf, TestReceiver, until } from './support/test-receiver.ts';

const STREAM = 'station/aft/4';
let folder: string;
let receiver: TestReceiver;
let events: StationEvent[];
let closers: (() => void | Promise<void>)[];

beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'link-'));
  receiver = new TestReceiver();
  events = [];
  closers = [];
});
afterEach(async () => {
  for (const close of closers) await close();
  await receiver.close();
  await rm(folder, { recursive: true, force: true });
});

/** A station of one stream without boards: a writer into a spool, a link out of it. */
async function station(url: string, options: { hurry?: number } = {}) {
  const { hurry = 1 } = options;
  const hurried = { ...machineClock, monotonicS: () => machineClock.monotonicS() * hurry };
  const spool = await Spool.open({ folder, station: 'station', mostBytes: 1e8 });
  const renewed: string[] = [];
  const simulated: unknown[] = [];
  const sender = new LinkSender({
    spool,
    nowMs: () => performance.now(),
    renew: (stream) => renewed.push(stream),
    damaged: (error) => {
      throw error;
    },
  });
  const access = await ReceiverAccess.open({
    folder,
    receiver: new URL(url).origin,
    code: 'a'.repeat(22),
    pin: null,
  });
  const link = new Link({
    url,
    clocks: { station: machineClock, machine: hurried },
    report: (event) => events.push(event),
    sender,
    access,
    hello: () => ({
      type: 'hello',
      version: 1,
      station: 'station',
      publicKey: 'A'.repeat(43),
      proof: 'A'.repeat(86),
      run: 'run-1',
      mountings: [],
      certificates: [],
      simulated: null,
    }),
    simulate: (order) => {
      if (order.weights.some(({ weight }) => weight === 'none'))
        throw new RangeError('no such weight');
      simulated.push(order);
    },
  });
  closers.push(() => link.stop());
  const writer = (stream: string) => {
    const made = new StreamWriter(stream, spool, machineClock);
    made.open({
      type: 'stream-opened',
      station: 'station',
      board: 'aft',
      boardIsOurs: true,
      resetCounter: 1,
      port: 'test',
      firmware: 'test',
      periodUs: 20_000,
      channels: [{ instrument: 'aft', quantity: 'y', part: 'test' }],
      openedStationS: 0,
    });
    let sequence = 0;
    const block = () => {
      const columns = [Array.from({ length: 25 }, (_, k) => sequence + k)];
      made.samples({
        type: 'samples',
        firstSequence: sequence,
        firstBoardUs: sequence * 20_000,
        stepUs: columns[0]!.map((_, k) => (k === 0 ? 0 : 20_000)),
        columns,
        faults: [],
        skipped: 0,
        arrivedStationS: sequence * 0.02,
      });
      sequence += 25;
    };
    return { block, close: () => made.close('wanted') };
  };
  const flush = async () => {
    await spool.flush();
    sender.pump();
  };
  return { spool, link, sender, writer, flush, renewed, simulated };
}

const sequences = (stream = STREAM) => sequencesOf(receiver.items(stream));
const whole = (blocks: number) => Array.from({ length: blocks * 25 }, (_, k) => k);
const faults = () => events.flatMap((event) => (event.event === 'fault' ? [event.code] : []));

describe('the link', () => {
  it('greets, sends in order, and forgets what is acknowledged', async () => {
    const { link, writer, flush, spool, sender } = await station(await receiver.listen());
    link.start();
    const aft = writer(STREAM);
    for (let k = 0; k < 10; k += 1) aft.block();
    aft.close();
    await flush();
    await until(() => spool.streams().length === 0, 'everything acknowledged');
    expect(sequences()).toEqual(whole(10));
    expect(sender.done).toBe(true);
    expect(receiver.broken).toEqual([]);
    expect(receiver.said[0]).toMatchObject({ type: 'hello', run: 'run-1' });
  });

  it('sends again from the acknowledged item after every cut, and nothing is lost or doubled', async () => {
    receiver.manners.cutAfterItems = 7;
    const { link, writer, flush, spool } = await station(await receiver.listen());
    link.start();
    const aft = writer(STREAM);
    for (let k = 0; k < 30; k += 1) {
      aft.block();
      await flush();
    }
    aft.close();
    await flush();
    await until(() => spool.streams().length === 0, 'everything acknowledged');
    expect(receiver.connections).toBeGreaterThan(3);
    expect(sequences()).toEqual(whole(30));
    expect(receiver.broken).toEqual([]);
  });

  it('sends the same bytes again when they were never acknowledged', async () => {
    receiver.manners.acknowledge = false;
    const { link, writer, flush, spool } = await station(await receiver.listen());
    link.start();
    const aft = writer(STREAM);
    for (let k = 0; k < 5; k += 1) aft.block();
    await flush();
    await until(() => sequences().length === 125, 'all sent');
    receiver.streams.clear();
    receiver.manners.acknowledge = true;
    receiver.cut();
    await until(() => sequences().length === 125, 'all sent again');
    await until(() => receiver.connections === 2, 'a second connection');
    expect(receiver.broken).toEqual([]);
    expect(spool.heldBytes).toBeGreaterThan(0);
  });

  it('keeps samples while nobody listens, and brings them when somebody does', async () => {
    const url = await receiver.listen();
    await receiver.close();
    const { link, writer, flush, spool } = await station(url);
    link.start();
    const aft = writer(STREAM);
    for (let k = 0; k < 10; k += 1) aft.block();
    aft.close();
    await flush();
    await until(() => faults().includes('link-lost'), 'the loss told');
    await receiver.listen();
    await until(() => spool.streams().length === 0, 'everything acknowledged');
    expect(sequences()).toEqual(whole(10));
    // One loss is told once, however often the receiver was tried.
    expect(faults().filter((code) => code === 'link-lost')).toHaveLength(1);
  });

  it('is not stopped by anything malformed, unknown or binary', async () => {
    receiver.manners.noise = [
      'not json',
      '{"type":"tea"}',
      '{"type":"acknowledged","stream":"station/aft/4","number":-1}',
      '{"type":"acknowledged","stream":"station/none/9","number":3}',
      '{"__proto__":{"type":"welcome"}}',
      Buffer.from([1, 2, 3]),
      JSON.stringify({ type: 'refused', code: 'act-not-now', where: 'x', found: 'y' }),
    ];
    const { link, writer, flush, spool } = await station(await receiver.listen());
    link.start();
    const aft = writer(STREAM);
    for (let k = 0; k < 10; k += 1) aft.block();
    aft.close();
    await flush();
    await until(() => spool.streams().length === 0, 'everything acknowledged');
    expect(sequences()).toEqual(whole(10));
    expect(receiver.connections).toBe(1);
    expect(new Set(faults())).toEqual(
      new Set(['message-malformed', 'message-unknown', 'act-not-now']),
    );
    expect(faults().length).toBeLessThanOrEqual(20);
  });

  it('comes again after a message over the size limit', async () => {
    const { link, writer, flush, spool } = await station(await receiver.listen());
    link.start();
    await until(() => events.some(({ event }) => event === 'receiver'), 'the welcome');
    receiver.send('x'.repeat(200_000));
    const aft = writer(STREAM);
    aft.block();
    aft.close();
    await flush();
    await until(() => spool.streams().length === 0, 'everything acknowledged');
    expect(receiver.connections).toBe(2);
  });

  it('sends from the acknowledged item when the receiver sees a gap', async () => {
    receiver.manners.acknowledge = false;
    const { link, writer, flush, spool } = await station(await receiver.listen());
    link.start();
    const aft = writer(STREAM);
    for (let k = 0; k < 4; k += 1) aft.block();
    aft.close();
    await flush();
    await until(() => sequences().length === 100, 'all sent');
    receiver.streams.clear();
    receiver.manners.acknowledge = true;
    receiver.send(
      JSON.stringify({ type: 'refused', code: 'stream-gap', where: `${STREAM} 5`, found: '' }),
    );
    await until(() => spool.streams().length === 0, 'everything acknowledged');
    expect(receiver.connections).toBe(1);
    expect(sequences()).toEqual(whole(4));
  });

  it('puts a stream into one record only, and asks for a new one for another record', async () => {
    const { link, writer, flush, spool, renewed } = await station(await receiver.listen());
    link.start();
    const aft = writer(STREAM);
    aft.block();
    await flush();
    await until(() => sequences().length === 25, 'sent to the first record');
    receiver.streams.clear();
    receiver.manners.record = 'record-2';
    receiver.cut();
    await until(() => renewed.includes(STREAM), 'the wish for a new stream');
    aft.block();
    aft.close();
    await flush();
    const other = writer('station/aft/5');
    other.block();
    await flush();
    await until(() => sequences('station/aft/5').length === 25, 'the new stream');
    expect(sequences()).toEqual([]);
    // The first record comes back, and gets the rest of its own.
    receiver.manners.record = 'record-1';
    receiver.cut();
    await until(() => sequences().length === 50, 'the rest of the old stream');
    const kept = () => spool.streams().some(({ stream }) => stream === STREAM);
    await until(() => !kept(), 'the old stream is forgotten');
    expect(receiver.broken).toEqual([]);
  });

  it('holds back a stream that conflicts, and goes on with the others', async () => {
    const { link, writer, flush, renewed } = await station(await receiver.listen());
    link.start();
    const aft = writer(STREAM);
    aft.block();
    await flush();
    await until(() => sequences().length === 25, 'sent');
    receiver.send(
      JSON.stringify({ type: 'refused', code: 'stream-conflict', where: `${STREAM} 2`, found: '' }),
    );
    await until(() => renewed.includes(STREAM), 'the wish for a new stream');
    aft.block();
    const other = writer('station/aft/44');
    other.block();
    await flush();
    await until(() => sequences('station/aft/44').length === 25, 'the other stream');
    expect(sequences()).toHaveLength(25);
  });

  it('does not wait for a receiver that accepts and says nothing', async () => {
    receiver.manners.welcome = false;
    const { link } = await station(await receiver.listen(), { hurry: 20 });
    link.start();
    await until(() => receiver.connections >= 2, 'a second connection');
    expect(events).toContainEqual(expect.objectContaining({ found: 'no welcome in 5 s' }));
  });

  it('leaves a connection on which nothing comes back any more', async () => {
    receiver.manners.exchange = false;
    const { link, writer, flush } = await station(await receiver.listen(), { hurry: 20 });
    link.start();
    await until(() => receiver.connections >= 2, 'a second connection');
    expect(events).toContainEqual(expect.objectContaining({ found: 'silent for 10 s' }));
    const aft = writer(STREAM);
    aft.block();
    await flush();
    await until(() => sequences().length === 25, 'the samples');
  });

  it('exchanges times quickly at first, and says when the reply came back', async () => {
    const { link } = await station(await receiver.listen());
    link.start();
    const exchanges = () => receiver.said.filter((message) => message.type === 'exchange');
    await until(() => exchanges().length >= 3, 'three exchanges');
    const [first, second] = exchanges();
    expect(first).not.toHaveProperty('earlierReturnedStationS');
    expect(second!.earlierReturnedStationS).toBeGreaterThanOrEqual(first!.sentStationS);
    expect(second!.earlierReturnedStationS).toBeLessThanOrEqual(second!.sentStationS);
  });

  it('hands on what the simulated vessel is told, and nothing half-right', async () => {
    const { link, simulated } = await station(await receiver.listen());
    link.start();
    await until(() => events.some(({ event }) => event === 'receiver'), 'the welcome');
    const order = {
      type: 'simulate',
      state: 1,
      weights: [{ weight: 'A', xM: 1, yM: 2, zM: 3 }],
      disturbances: { wind: true, gusts: false, wakes: false, walking: false, snaggedLine: false },
      pace: 5,
    };
    receiver.send(JSON.stringify({ ...order, pace: 500 }));
    receiver.send(JSON.stringify({ ...order, weights: [{ weight: 'none', xM: 1, yM: 2, zM: 3 }] }));
    receiver.send(JSON.stringify(order));
    await until(() => simulated.length > 0, 'the order');
    expect(simulated).toEqual([order]);
  });
});
