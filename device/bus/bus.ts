/**
 * One I2C bus as the drivers see it. Requests are done one after another; each ends within its
 * deadline, whatever the board does.
 *
 * `read` resolves with exactly `count` bytes or rejects with a Fault: `bus-no-answer` (nobody
 * acknowledges), `bus-stuck` (a line is held), `bus-short-reply` (some bytes only), `board-lost`
 * (no reply within the deadline, or the board is gone).
 *
 * `write` resolves when the bytes are handed to the port: Firmata acknowledges no write, so a
 * driver reads back what matters.
 */
export interface Bus {
  /** @param count 1 to 32 bytes, read from the register on; null: the chip has none, none is sent */
  read(address: number, register: number | null, count: number): Promise<Uint8Array>;
  write(address: number, register: number, bytes: readonly number[]): Promise<void>;
}

export function addressText(address: number): string {
  return `0x${address.toString(16).padStart(2, '0')}`;
}
