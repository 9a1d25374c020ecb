import { expect, test } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { nameMessage, queryMessage, startMessage, stepMessage } from '#device/bus/scan-message.ts';
import { BoardHost, PlainChip, readStep } from '#tests/support/board-host.ts';

const VERSION_QUERY = 0xf9;

test('300 times 200 random bytes never stop it answering', () => {
  const chance = createRandom(20_240_511, 'random bytes');
  const host = new BoardHost({ chips: [new PlainChip(0x20)] });
  host.run(1);
  for (let round = 0; round < 300; round++) {
    host.send(...Array.from({ length: 200 }, () => Math.floor(chance.between(0, 256))));
    host.run(0.1);
  }
  // Whatever reports the noise has switched on end with a system reset.
  host.send(0xf7, 0xff);
  host.run(0.5);
  host.messages();
  host.sysex(...queryMessage());
  host.run(0.2);
  const [reply] = host.heard().scan;
  expect(reply).toMatchObject({ kind: 'identity', identity: { resetCounter: 1, name: '' } });
});

test('a message cut anywhere is forgotten at the next one, which is answered', () => {
  const chip = new PlainChip(0x20);
  const host = new BoardHost({ chips: [chip] });
  host.run(1);
  host.messages();
  const START = 0xf0;
  const step = readStep(0x20, 0, 1);
  const messages = [queryMessage(), stepMessage(step), startMessage(20_000), nameMessage('Fore')];
  for (const message of messages) {
    for (let kept = 0; kept <= message.length; kept++) {
      host.send(START, ...message.slice(0, kept));
      host.run(0.01);
      host.heard();
      host.sysex(...queryMessage());
      host.run(0.05);
      const identities = host.heard().scan.filter(({ kind }) => kind === 'identity');
      expect(identities.length, `cut after ${kept} of ${message.length}`).toBe(1);
    }
  }
});

test('bytes lost from full-speed traffic spoil messages, never the board', () => {
  const host = new BoardHost();
  host.run(1);
  host.messages();
  // Each query is answered by far more bytes than the line can take back at that rate.
  for (let round = 0; round < 200; round++) host.sysex(0x6b);
  host.run(8);
  expect(host.messages().length).toBeGreaterThan(0);
  host.send(VERSION_QUERY);
  host.run(0.1);
  expect(host.messages()).toEqual([[VERSION_QUERY, 2, 6]]);
});

test('messages too long are passed over whole', () => {
  const host = new BoardHost();
  host.run(1);
  host.messages();
  host.sysex(0x79, ...Array<number>(200).fill(1));
  host.run(0.2);
  expect(host.messages()).toEqual([]);
  host.sysex(0x79);
  host.run(0.1);
  expect(host.messages().length).toBe(1);
});

test('a program that hangs is restarted by the watchdog within a second, and the start is counted', () => {
  const host = new BoardHost({ chips: [new PlainChip(0x20)] });
  host.run(1);
  host.startScan(20_000, [readStep(0x20, 0, 1)]);
  host.run(0.2);
  host.messages();
  host.board.hang();
  host.run(1);
  host.sysex(...queryMessage());
  host.run(0.1);
  const { scan, other } = host.heard();
  expect(other[0]).toEqual([VERSION_QUERY, 2, 6]);
  expect(scan.at(-1)).toMatchObject({
    kind: 'identity',
    identity: { resetCounter: 2, startCause: 8 },
  });
});

test('a board with nothing to do sleeps through more than 99 % of its cycles', () => {
  const host = new BoardHost();
  host.run(60);
  expect(host.board.sleptShare).toBeGreaterThan(0.99);
});
