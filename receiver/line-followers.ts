import type { LineRead } from '#core/record/read-line.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import type { SessionState } from '#core/session/session.ts';
import { RecentHeads } from './recent-heads.ts';
import { StreamLedger } from './stream-ledger.ts';
import { TimeMap } from './time-map.ts';

/** What stands on the lines of a record and is built the same live and at opening. */
export class LineFollowers {
  readonly ledger = new StreamLedger();
  readonly timeMap = new TimeMap();
  readonly heads = new RecentHeads();
  #session: SessionState = EMPTY_SESSION;

  get session(): SessionState {
    return this.#session;
  }

  /** The session refuses first: a line that contradicts it enters nothing. */
  follow(read: LineRead): void {
    const session = foldLine(this.#session, read.line);
    this.ledger.follow(read);
    this.timeMap.follow(read);
    this.heads.follow(read.line);
    this.#session = session;
  }
}
