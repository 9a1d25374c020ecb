import type { SessionState } from '#core/session/session.ts';
import type { WatchPicture } from '#core/steadiness/watch-types.ts';
import type { LiveInstrument, LivePicture } from '#core/wire/screen-message.ts';
import { instrumentRefusal } from './instruments.ts';
import type { Trace, Traces } from './traces.ts';

/** What the live picture is made of. */
export interface PictureParts {
  readonly receiverS: number;
  readonly wall: string;
  readonly session: SessionState;
  readonly watch: WatchPicture | null;
  readonly traces: Traces;
  readonly simulation: LivePicture['simulation'];
  readonly saved: LivePicture['saved'];
  readonly stations: LivePicture['stations'];
  readonly notRecording: LivePicture['notRecording'];
}

const NOTHING_YET: LivePicture['joined'] = {
  verdict: 'silent',
  reason: 'no samples yet',
  estimate: null,
  readable: false,
  whyNot: 'no samples yet',
  countedS: 0,
  inAMinuteDeg: null,
  remainingS: null,
};

/** The picture a screen shows now: with the last two minutes of every trace, or with the news only. */
export function livePicture(parts: PictureParts, whole: boolean): LivePicture {
  const { session, watch, traces } = parts;
  const joined = watch?.joined ?? NOTHING_YET;
  const whyNot = parts.notRecording ?? dayRefusal(session) ?? joined.whyNot;
  return {
    type: 'live',
    receiverS: parts.receiverS,
    wall: parts.wall,
    whole,
    instruments: session.mountings.map(({ instrument, label }) =>
      liveInstrument(
        parts,
        instrument,
        label,
        whole ? traces.whole(instrument) : traces.news(instrument),
      ),
    ),
    joined: { ...joined, readable: joined.readable && whyNot === null, whyNot },
    notUsed: (watch?.notUsed ?? []).map(({ fromS, toS, kind, instruments }) => ({
      fromS,
      toS,
      kind,
      instruments,
    })),
    simulation: parts.simulation,
    notRecording: parts.notRecording,
    saved: parts.saved,
    stations: parts.stations,
  };
}

function liveInstrument(
  { session, watch, traces }: PictureParts,
  instrument: string,
  label: string,
  trace: Trace,
): LiveInstrument {
  const watched = watch?.instruments.find((one) => one.instrument === instrument);
  return {
    instrument,
    label,
    verdict: watched?.verdict ?? 'silent',
    reason: watched?.reason ?? 'no samples yet',
    estimate: watched?.estimate ?? null,
    refused: watched === undefined ? instrumentRefusal(session, instrument) : watched.refused,
    temperatureC: traces.temperatureC(instrument),
    trace,
  };
}

/** Why the order of the day allows no reading now, in words; null when it waits for one. */
function dayRefusal(session: SessionState): string | null {
  switch (session.awaits) {
    case 'reading':
      return null;
    case 'landing':
      return 'weights are under way';
    case 'shift':
      return 'this state is read';
    case 'test':
      return 'no test is open';
    case 'nothing':
      return 'the day is done';
  }
}
