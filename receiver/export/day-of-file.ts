import { createHash } from 'node:crypto';
import { Fault } from '#core/fault/fault.ts';
import { excerptLine } from '#core/report/excerpt.ts';
import { type ReportedDay, reportedDay } from '#core/report/reported-day.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import type { SessionState } from '#core/session/session.ts';
import { scanRecordFile } from '../commands/verify.ts';
import { nodeSha256Hex } from '../node-digest.ts';
import { PROGRAM_NAME, programVersion } from '../program.ts';
import { tracesOfRecord } from './traces-of-record.ts';

/** Lines without samples: more than any day of people and clocks has. */
const MOST_EXCERPT_BYTES = 128 * 1024 * 1024;

export interface DayOfFile {
  readonly day: ReportedDay;
  /** The lines, samples standing by their digests. */
  readonly excerpt: Uint8Array;
}

/**
 * A record as the documents want it: followed twice, once for what the day came to and once for the
 * traces. `endBytes` of a record that is being written. Throws the fault of a line that does not
 * hold, `input-too-large`, `file-not-readable`.
 */
export function dayOfFile(path: string, endBytes?: number): DayOfFile {
  let session: SessionState = EMPTY_SESSION;
  let lastWall = '1970-01-01T00:00:00.000Z';
  let excerptBytes = 0;
  const excerpt: Uint8Array[] = [];
  const photographs: ReportedDay['photographs'][number][] = [];
  const whole = createHash('sha256');
  const { fault, chain } = scanRecordFile(
    path,
    ({ line }, bytes) => {
      session = foldLine(session, line);
      lastWall = line.wall;
      if (line.kind === 'photograph')
        photographs.push({ line: line.n, caption: line.body.caption, jpeg: line.body.jpeg });
      whole.update(bytes);
      // a slice of the file's buffer would keep all of that in memory
      const kept = Uint8Array.from(excerptLine(line, bytes, nodeSha256Hex));
      excerptBytes += kept.length;
      if (excerptBytes > MOST_EXCERPT_BYTES)
        throw new Fault(
          'input-too-large',
          path,
          `over ${MOST_EXCERPT_BYTES} bytes without samples`,
        );
      excerpt.push(kept);
    },
    endBytes,
  );
  if (fault !== null) throw fault;
  if (chain.next === 0) throw new Fault('record-line', 'line 0', 'the file is empty');
  const day = reportedDay(session, {
    head: { lines: chain.next, head: chain.head },
    lastWall,
    recordSha256: whole.digest('hex'),
    program: `${PROGRAM_NAME} ${programVersion()}`,
    traces: tracesOfRecord(path, session, endBytes),
    photographs,
  });
  return { day, excerpt: Buffer.concat(excerpt) };
}
