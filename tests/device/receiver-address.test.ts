import { describe, expect, it } from 'vitest';
import type { Fault } from '#core/fault/fault.ts';
import { DEFAULT_RECEIVER_URL, receiverAddress } from '#device/receiver-address.ts';

describe("the receiver's address", () => {
  it.each([
    ['ws://127.0.0.1:4791', 'ws://127.0.0.1:4791/device'],
    ['ws://localhost:4780/', 'ws://localhost:4780/device'],
    ['ws://[::1]:4780/device', 'ws://[::1]:4780/device'],
    ['wss://dock.example/device', 'wss://dock.example/device'],
    ['wss://dock.example/other', 'wss://dock.example/other'],
    [DEFAULT_RECEIVER_URL, DEFAULT_RECEIVER_URL],
  ])('takes %s', (given, taken) => {
    expect(receiverAddress(given)).toBe(taken);
  });

  it.each([
    ['link-not-private', 'ws://192.168.1.4:4780'],
    ['link-not-private', 'ws://dock.example'],
    ['link-not-private', 'ws://127.0.0.1.example/device'],
    ['link-not-private', 'ws://localhost.example'],
    ['input-shape', 'http://127.0.0.1:4780'],
    ['input-shape', 'dock'],
    ['input-shape', ''],
  ])('refuses with %s: %s', (code, given) => {
    try {
      receiverAddress(given);
      expect.unreachable();
    } catch (error) {
      expect((error as Fault).code).toBe(code);
    }
  });
});
