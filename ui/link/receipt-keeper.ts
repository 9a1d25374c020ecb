import { z } from 'zod';
import type { KnownHead } from '#core/record/known-head.ts';
import { receiptSignedText } from '#core/record/signed-by-key.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Act, LivePicture } from '#core/wire/screen-message.ts';
import type { OwnKey } from './own-key.ts';
import type { Kept } from './person.ts';

const KEY = 'heelwright-receipts';
/** Some days' worth; the oldest goes first. */
const MOST_RECEIPTS = 300;

const kept = z.array(
  z.strictObject({
    record: z.string().max(100),
    lines: z.number().int().positive(),
    head: z.string().length(64),
    wall: z.string().max(40),
  }),
);
/** How far a record had come, as this browser saw it. */
export type KeptReceipt = z.infer<typeof kept>[number];

/**
 * Receipts of this browser: at every reading, and when somebody asks for one, the number of lines
 * and the head are kept here, out of the reach of whoever has the record.
 */
export class ReceiptKeeper {
  readonly #kept: Kept;
  readonly #key: OwnKey;
  /** The newest reading's line a receipt was taken at. */
  #readingLine: number | null = null;

  constructor(store: Kept, key: OwnKey) {
    this.#kept = store;
    this.#key = key;
  }

  get publicKey(): string {
    return this.#key.publicKey;
  }

  /** Newest last. */
  of(record: string): KeptReceipt[] {
    return this.#all().filter((one) => one.record === record);
  }

  /** The act that tells of a receipt just taken, or null when no reading has come since the last. */
  atReading(session: SessionState, live: LivePicture): Act | null {
    const newest = session.states.findLast(({ reading }) => reading !== null)?.readingWritten?.line;
    if (newest === undefined || live.saved.line < newest) return null;
    if (this.#readingLine !== null && newest <= this.#readingLine) return null;
    const first = this.#readingLine === null;
    this.#readingLine = newest;
    // A page opened anew has a receipt of this reading already, unless it was away.
    if (
      first &&
      session.record !== null &&
      this.of(session.record).some((one) => one.lines > newest)
    )
      return null;
    return this.take(session, live);
  }

  /** Keeps a receipt of what is on the receiver's disk now. Null without a record. */
  take({ record }: SessionState, { saved, wall }: LivePicture): Act | null {
    if (record === null) return null;
    const known: KnownHead = { lines: saved.line + 1, head: saved.head };
    const all = [...this.#all(), { record, ...known, wall }];
    this.#kept.setItem(KEY, JSON.stringify(all.slice(-MOST_RECEIPTS)));
    const seen = { record, number: known.lines, digest: known.head };
    const signature = this.#key.sign(receiptSignedText(seen));
    return { kind: 'take-receipt', ...known, publicKey: this.publicKey, signature };
  }

  #all(): KeptReceipt[] {
    try {
      return kept.parse(JSON.parse(this.#kept.getItem(KEY) ?? '[]'));
    } catch {
      // What something else wrote there is no receipt.
      return [];
    }
  }
}
