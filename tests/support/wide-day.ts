import type { ReportedDay } from '#core/report/reported-day.ts';
import type { SessionState } from '#core/session/session.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { entered, surveyOf } from './entries.ts';
import { reportedDayOf } from './reported-day.ts';

const SHIFTS = 40;
const INSTRUMENTS = 6;
const ITEMS = 300;

/** The widest day there is to be printed: forty shifts, six instruments, three hundred items. */
export function aWideDay(): ReportedDay {
  const day = aDay({ stateDeg: 0.004, readingDeg: 0.003 });
  const names = Array.from({ length: INSTRUMENTS }, (_, k) => `instrument ${k + 1}`);
  // The nine states come again and again: each arrangement is the same whoever moved it last.
  const states = Array.from({ length: SHIFTS + 1 }, (_, state) => {
    const like = day.states[state % 8]!;
    const own = like.reading!;
    return {
      ...like,
      state,
      moves: state === 0 ? [] : day.states[1 + ((state - 1) % 8)]!.moves,
      readingWritten: { ...like.readingWritten!, line: 10 * state },
      reading: {
        ...own,
        ...{ state, fromS: 100 * state, toS: 100 * state + 60 },
        instruments: names.map((instrument, k) => ({
          ...own.instruments[k % 3]!,
          ...{ instrument, label: instrument, certificate: `C-${k + 1}` },
        })),
      },
    };
  });
  const session: SessionState = {
    ...day,
    states,
    mountings: names.map((instrument, k) => ({
      ...day.mountings[k % 3]!,
      ...{ instrument, label: instrument },
    })),
    certificates: names.map((instrument, k) => ({
      ...day.certificates[k % 3]!,
      ...{ instrument, number: `C-${k + 1}` },
    })),
    survey: surveyOf(
      Array.from({ length: ITEMS }, (_, k) =>
        entered('item', `Item ${k + 1}, in the forepeak locker`, {
          kind: 'deduct',
          massT: 0.01 + k / 1000,
          massUncertaintyT: 0.001,
          at: { xM: k / 20, yM: 0.2, zM: 2 },
          placeUncertaintyM: 0.05,
        }),
      ),
    ),
  };
  return reportedDayOf(session);
}
