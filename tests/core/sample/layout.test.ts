import { describe, expect, it } from 'vitest';
import { BOARD_CHANNELS, INSTRUMENTS } from '#core/sample/layout.ts';
import { channel, MOST_CHANNELS } from '#core/sample/stream-item.ts';

describe('the columns of the boards', () => {
  it('are channels a stream can open with, each once', () => {
    for (const channels of Object.values(BOARD_CHANNELS)) {
      expect(channels.length).toBeLessThanOrEqual(MOST_CHANNELS);
      const names = channels.map((one) => {
        channel.parse(one);
        return `${one.instrument} ${one.quantity}`;
      });
      expect(new Set(names).size).toBe(names.length);
    }
  });

  it('leave no instrument out', () => {
    const aboard = Object.values(BOARD_CHANNELS).flatMap((all) => all.map((one) => one.instrument));
    expect(new Set(aboard)).toEqual(new Set(Object.values(INSTRUMENTS)));
  });
});
