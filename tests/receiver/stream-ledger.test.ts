import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { Line } from '#core/record/line.ts';
import type { StreamItem } from '#core/sample/stream-item.ts';
import { StreamLedger } from '#receiver/stream-ledger.ts';
import { blockBody, OPENED_BODY, STREAM } from '#tests/support/record-lines.ts';

/** A ledger that takes what it calls new, as the intake does; what became of each item sent. */
function intake() {
  const ledger = new StreamLedger();
  let lines = 0;
  return {
    ledger,
    lines: () => lines,
    send(item: StreamItem): string {
      const bodyText = JSON.stringify(item);
      try {
        const found = ledger.check(item, bodyText);
        if (found === 'new') {
          const line = { n: lines, kind: item.type, body: item } as unknown as Line;
          ledger.follow({ line, bodyText });
          lines += 1;
        }
        return found;
      } catch (error) {
        if (error instanceof Fault) return error.code;
        throw error;
      }
    },
  };
}

const item = (number: number) => (number === 0 ? OPENED_BODY : blockBody(number, number * 10));

describe('the ledger of streams', () => {
  it('takes each number once and in order, whatever comes how often', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 90 }), { maxLength: 200 }), (numbers) => {
        const { send } = intake();
        let next = 0;
        for (const number of numbers) {
          const expected =
            number < next
              ? 'known'
              : number === next
                ? 'new'
                : next === 0
                  ? 'stream-unknown'
                  : 'stream-gap';
          expect(send(item(number))).toBe(expected);
          if (expected === 'new') next += 1;
        }
      }),
    );
  });

  it('knows other bytes under a number it holds, however long ago', () => {
    const { send } = intake();
    for (let number = 0; number < 300; number += 1) expect(send(item(number))).toBe('new');
    for (const number of [0, 1, 64, 299])
      expect([number, send(changed(number))]).toEqual([number, 'stream-conflict']);
  });

  it('takes nothing after a closing', () => {
    const { send } = intake();
    send(item(0));
    const closed = {
      type: 'stream-closed',
      stream: STREAM,
      number: 1,
      v: 1,
      reason: 'wanted',
      closedStationS: 1,
    } as const;
    expect(send(closed)).toBe('new');
    expect(send(closed)).toBe('known');
    expect(send(item(2))).toBe('stream-over');
  });

  it('acknowledges only what is on disk, and each stream to its last whole number', () => {
    const { ledger, send } = intake();
    const other = 'station-2/board-7/0';
    send(item(0));
    send({ ...OPENED_BODY, station: 'station-2', stream: other });
    send(item(1));
    send(item(2));
    expect(ledger.committedNumber(STREAM)).toBeNull();
    expect(ledger.commit(3)).toEqual([
      { stream: STREAM, number: 1 },
      { stream: other, number: 0 },
    ]);
    expect(ledger.commit(3)).toEqual([]);
    expect(ledger.committedOf('station-1')).toEqual([{ stream: STREAM, number: 1 }]);
    expect(ledger.commit(4)).toEqual([{ stream: STREAM, number: 2 }]);
    // A station's name that begins like another's is not that station.
    expect(ledger.committedOf('station')).toEqual([]);
  });
});

function changed(number: number): StreamItem {
  return number === 0
    ? { ...OPENED_BODY, port: 'another' }
    : { ...blockBody(number, number * 10), skipped: 1 };
}
