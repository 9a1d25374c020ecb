import { hash } from 'node:crypto';
import { Fault } from '#core/fault/fault.ts';
import type { LineRead } from '#core/record/read-line.ts';
import type { StreamItem } from '#core/sample/stream-item.ts';

const DIGEST_BYTES = 16;
const MOST_STREAMS = 10_000;

interface Entry {
  /** Number the next item carries. */
  next: number;
  channels: number;
  closed: boolean;
  /** Numbers under this are on disk. */
  committed: number;
  /** [items, line number] where each not yet committed item went. */
  waiting: { number: number; line: number }[];
  digests: Buffer;
}

/**
 * Which items of which streams the record holds: exactly once means (stream, number). Of every
 * item sixteen bytes of its SHA-256 are kept, so that a number coming again with other bytes is
 * known for what it is, hours later too.
 */
export class StreamLedger {
  readonly #streams = new Map<string, Entry>();

  /** `new`: to be appended. `known`: the same bytes are held already. Throws the fault it is refused with. */
  check(item: StreamItem, itemText: string): 'new' | 'known' {
    const entry = this.#streams.get(item.stream);
    if (entry !== undefined && isNext(item, entry)) return 'new';
    const where = `${item.stream} ${item.number}`;
    if (entry === undefined) {
      if (item.type !== 'stream-opened') throw new Fault('stream-unknown', where, item.type);
      if (this.#streams.size >= MOST_STREAMS)
        throw new Fault('input-too-large', where, `over ${MOST_STREAMS} streams`);
      return 'new';
    }
    if (item.number < entry.next) {
      const at = item.number * DIGEST_BYTES;
      if (digestOf(itemText).equals(entry.digests.subarray(at, at + DIGEST_BYTES))) return 'known';
      throw new Fault('stream-conflict', where, 'other bytes under the same number');
    }
    if (entry.closed) throw new Fault('stream-over', where, item.type);
    if (item.number > entry.next) throw new Fault('stream-gap', where, `awaited ${entry.next}`);
    if (item.type === 'stream-opened')
      throw new Fault('stream-conflict', where, 'a second opening');
    if (item.type === 'samples' && item.columns.length !== entry.channels)
      throw new Fault('message-malformed', where, `${item.columns.length} columns`);
    return 'new';
  }

  /** Follows the record's lines. */
  follow({ line, bodyText }: LineRead): void {
    switch (line.kind) {
      case 'stream-opened':
      case 'samples':
      case 'board-clock':
      case 'stream-fault':
      case 'stream-closed':
        this.#add(line.body, bodyText, line.n);
    }
  }

  /** Lines under this number are on disk: returns each stream's last item that newly is. */
  commit(lines: number): { stream: string; number: number }[] {
    const acknowledged: { stream: string; number: number }[] = [];
    for (const [stream, entry] of this.#streams) {
      if (entry.waiting.length === 0) continue;
      const still = entry.waiting.findIndex((item) => item.line >= lines);
      const done = still < 0 ? entry.waiting.length : still;
      const last = entry.waiting[done - 1];
      if (last === undefined) continue;
      entry.waiting.splice(0, done);
      entry.committed = last.number + 1;
      acknowledged.push({ stream, number: last.number });
    }
    return acknowledged;
  }

  /** The last item of a stream that is on disk, or null. */
  committedNumber(stream: string): number | null {
    const entry = this.#streams.get(stream);
    return entry === undefined || entry.committed === 0 ? null : entry.committed - 1;
  }

  /** Streams of a station with what is on disk of each. */
  committedOf(station: string): { stream: string; number: number }[] {
    const own: { stream: string; number: number }[] = [];
    for (const [stream, entry] of this.#streams)
      if (stream.startsWith(`${station}/`) && entry.committed > 0)
        own.push({ stream, number: entry.committed - 1 });
    return own;
  }

  #add(item: StreamItem, itemText: string, line: number): void {
    if (this.check(item, itemText) === 'known')
      throw new Fault('record-line', `line ${line}`, `item ${item.number} stands twice`);
    let entry = this.#streams.get(item.stream);
    if (entry === undefined) {
      const channels = item.type === 'stream-opened' ? item.channels.length : 0;
      const digests = Buffer.alloc(64 * DIGEST_BYTES);
      entry = { next: 0, channels, closed: false, committed: 0, waiting: [], digests };
      this.#streams.set(item.stream, entry);
    }
    const at = entry.next * DIGEST_BYTES;
    if (at >= entry.digests.length)
      entry.digests = Buffer.concat([entry.digests, Buffer.alloc(entry.digests.length)]);
    digestOf(itemText).copy(entry.digests, at);
    entry.waiting.push({ number: item.number, line });
    entry.next += 1;
    if (item.type === 'stream-closed') entry.closed = true;
  }
}

/** The usual case, told before any words are made for the others. */
function isNext(item: StreamItem, { next, closed, channels }: Entry): boolean {
  if (item.number !== next || closed || item.type === 'stream-opened') return false;
  return item.type !== 'samples' || item.columns.length === channels;
}

function digestOf(itemText: string): Buffer {
  return hash('sha256', itemText, 'buffer').subarray(0, DIGEST_BYTES);
}
