import type { LineRead } from '#core/record/read-line.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import type { SessionState } from '#core/session/session.ts';
import { PhotographPlaces } from './access/photographs.ts';
import { RecentHeads } from './recent-heads.ts';
import { StreamLedger } from './stream-ledger.ts';
import { TimeMap } from './time-map.ts';

/** What stands on the lines of a record and is built the same live and at opening. */
export class LineFollowers {
  readonly ledger = new StreamLedger();
  readonly timeMap = new TimeMap();
  readonly heads = new RecentHeads();
  readonly photographs = new PhotographPlaces();
  #session: SessionState = EMPTY_SESSION;

  get session(): SessionState {
    return this.#session;
  }

  /**
   * The session refuses first: a line that contradicts it enters nothing. `bytes`: the line's length
   * in its file, where photographs are looked up there.
   */
  follow(read: LineRead, bytes = 0): void {
    const session = foldLine(this.#session, read.line);
    this.ledger.follow(read);
    this.timeMap.follow(read);
    this.heads.follow(read.line);
    this.photographs.follow(read.line, bytes);
    this.#session = session;
  }
}
