import { beforeEach, expect, test } from 'vitest';
import { EmulatedTransport } from '#device/emulated/emulated-transport.ts';

let received: number[];
let closings: number;
let transport: EmulatedTransport;
let events: string[];

const soon = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

function listen(to: EmulatedTransport): void {
  for (const name of ['open', 'close', 'error', 'data']) {
    to.on(name, (what?: unknown) =>
      events.push(what === undefined || what === null ? name : `${name} ${String(what)}`),
    );
  }
}

beforeEach(() => {
  received = [];
  closings = 0;
  events = [];
  transport = new EmulatedTransport({
    receive: (bytes) => received.push(...bytes),
    closed: () => {
      closings += 1;
    },
  });
  listen(transport);
});

test('open is told later, and what the board said before comes after it', async () => {
  transport.deliver(Uint8Array.of(65, 66));
  expect([transport.isOpen, events]).toEqual([false, []]);
  await soon();
  expect([transport.isOpen, events]).toEqual([true, ['open', 'data AB']]);
});

test('bytes go both ways, from arrays too, and a write calls back', async () => {
  await soon();
  await new Promise<void>((resolve, reject) => {
    transport.write([1, 2], (error) => (error ? reject(error) : resolve()));
  });
  transport.write(Uint8Array.of(3));
  transport.deliver(Uint8Array.of(67));
  expect(received).toEqual([1, 2, 3]);
  expect(events.at(-1)).toBe('data C');
});

test('closing: close without an error, once; afterwards an error to whoever asks', async () => {
  await soon();
  const closed = await new Promise((resolve) => transport.close(resolve));
  expect(closed).toBeNull();
  expect([transport.isOpen, closings, events]).toEqual([false, 1, ['open', 'close']]);
  transport.deliver(Uint8Array.of(65));
  expect(String(await new Promise((resolve) => transport.close(resolve)))).toContain('not open');
  expect(String(await new Promise((resolve) => transport.write([1], resolve)))).toContain(
    'not open',
  );
  expect([closings, received, events]).toEqual([1, [], ['open', 'close']]);
});

test('closed before it was open: no open is told', async () => {
  transport.close();
  await soon();
  await soon();
  expect(events).toEqual(['close']);
});

test('an unplugged one closes with an error that says so', async () => {
  await soon();
  const closed = new Promise((resolve) => transport.once('close', resolve));
  transport.disconnect();
  transport.disconnect();
  expect(await closed).toMatchObject({ disconnected: true });
  await soon();
  expect([closings, events]).toEqual([1, ['open', 'close Error: device unplugged']]);
});

test('a refused one tells an error, and neither opens nor takes bytes', async () => {
  const refused = EmulatedTransport.refused('No such device');
  listen(refused);
  await soon();
  await soon();
  expect(events).toContain('error Error: No such device');
  expect(refused.isOpen).toBe(false);
});

test('a board that can take no more is an error of the write', async () => {
  const full = new EmulatedTransport({
    receive: () => {
      throw new RangeError('too many bytes');
    },
    closed: () => undefined,
  });
  await soon();
  expect(String(await new Promise((resolve) => full.write([1], resolve)))).toContain('too many');
});
