import { Fault } from '../fault/fault.ts';
import type { Line } from '../record/line.ts';
import type { SessionState } from './session.ts';
import { writtenOf } from './written.ts';

const MOST_FAULTS = 200;
type Stream = SessionState['streams'][number];
type StreamLine = Extract<
  Line,
  { kind: 'stream-opened' | 'samples' | 'stream-fault' | 'stream-closed' }
>;
type OpenedLine = Extract<StreamLine, { kind: 'stream-opened' }>;
type Opened = OpenedLine['body'];

/** What the session knows of its streams after a line of one: open or not, samples, faults. */
export function foldStreams(session: SessionState, line: StreamLine): SessionState {
  switch (line.kind) {
    case 'stream-opened':
      return { ...session, streams: [...endedBy(session.streams, line.body), streamOf(line)] };
    case 'samples':
      return changed(session, line, (stream) => ({
        ...stream,
        samples: stream.samples + line.body.stepUs.length,
        skipped: stream.skipped + line.body.skipped,
      }));
    case 'stream-closed':
      return changed(session, line, (stream) => ({
        ...stream,
        open: false,
        reason: line.body.reason,
      }));
    case 'stream-fault':
      return {
        ...session,
        faults: [
          ...session.faults.slice(-(MOST_FAULTS - 1)),
          {
            written: writtenOf(line),
            code: line.body.code,
            where: line.body.where,
            found: line.body.found,
          },
        ],
      };
  }
}

/** A board runs one stream at a time: a new one ends those its killed program could not close. */
function endedBy(streams: readonly Stream[], opened: Opened): readonly Stream[] {
  const station = `${opened.station}/`;
  return streams.map((stream) =>
    stream.open && stream.board === opened.board && stream.stream.startsWith(station)
      ? { ...stream, open: false, reason: 'replaced' }
      : stream,
  );
}

function streamOf({ body: opened, receiverS }: OpenedLine): Stream {
  return {
    openedS: receiverS,
    parts: partsOf(opened),
    stream: opened.stream,
    board: opened.board,
    boardIsOurs: opened.boardIsOurs,
    port: opened.port,
    open: true,
    reason: null,
    samples: 0,
    skipped: 0,
  };
}

function changed(
  session: SessionState,
  line: StreamLine,
  change: (stream: Stream) => Stream,
): SessionState {
  const at = session.streams.findLastIndex((stream) => stream.stream === line.body.stream);
  const stream = session.streams[at];
  if (stream === undefined)
    throw new Fault('record-line', `line ${line.n}`, `stream ${line.body.stream} was not opened`);
  return { ...session, streams: session.streams.with(at, change(stream)) };
}

/** The part that measures each instrument's heel, that of its first channel, and where its chips answer. */
function partsOf({ channels }: Opened): Stream['parts'] {
  const instruments = [...new Set(channels.map(({ instrument }) => instrument))];
  return instruments.map((instrument) => {
    const own = channels.filter((one) => one.instrument === instrument);
    const addresses = [...new Set(own.flatMap(({ address }) => address ?? []))];
    const { part, counted } = own[0]!;
    return {
      ...{ instrument, part },
      ...(counted === undefined ? {} : { counted }),
      ...(addresses.length === 0 ? {} : { addresses }),
    };
  });
}
