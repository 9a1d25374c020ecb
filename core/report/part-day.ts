import type { Place } from '../record/line.ts';
import { facts, heading, note, tableOr } from './blocks.ts';
import type { Block } from './document.ts';
import { fixed, significant } from './figure.ts';
import { NOT_STATED, secondsWords, stated, wallWords } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';

/** The vessel as stated, the weights, and every shift with its times. */
export function partDay(day: ReportedDay): Block[] {
  return [
    heading(1, 'Vessel, weights and shifts'),
    ...particularBlocks(day),
    heading(2, 'Weights'),
    ...weightBlocks(day),
    heading(2, 'Shifts in the order they were made'),
    ...shiftBlocks(day),
    ...conditionBlocks(day),
  ];
}

function particularBlocks({ session: { test } }: ReportedDay): Block[] {
  if (test === null) return [];
  const { particulars, distanceUncertaintyM } = test;
  return [
    facts([
      ['Length', `${significant(particulars.lengthM, 7)} m`],
      ['Beam', `${significant(particulars.beamM, 7)} m`],
      [
        'GM guessed before the first shift',
        stated(particulars.gmGuessM, particulars.gmGuessUncertaintyM, 'm'),
      ],
      ['Source of displacement and KM', 'as entered when the test was opened, by who opened it'],
      [
        'Distances moved',
        `standard uncertainty ${significant(distanceUncertaintyM, 4)} m each, one tape common to all`,
      ],
      ['Shifts planned', String(test.plan.length)],
    ]),
  ];
}

function weightBlocks({ session: { test } }: ReportedDay): Block[] {
  return [
    tableOr(
      [
        ['Weight', 10],
        ['Mass, t', 14, 'right'],
        ['Standard uncertainty, t', 18, 'right'],
        ['Certificate or weighing', 28],
        ['First place: x, y, z, m', 30, 'right'],
      ],
      (test?.weights ?? []).map(({ weight, massT, massUncertaintyT, certificate, at }) => [
        weight,
        significant(massT, 7),
        significant(massUncertaintyT, 3),
        certificate === '' ? NOT_STATED : certificate,
        placeWords(at),
      ]),
      'No weight is stated.',
    ),
  ];
}

function shiftBlocks({ session }: ReportedDay): Block[] {
  const rows = session.states.flatMap((state) =>
    state.moves.map(({ weight, from, to }, k) => [
      k === 0 ? String(state.state) : '',
      weight,
      placeWords(from),
      placeWords(to),
      k === 0 ? fixed(state.heelingMomentTM, 4) : '',
      k === 0 && state.begun !== null ? timeWords(state.begun.wall) : '',
      k === 0 ? (state.landed === null ? 'not down' : timeWords(state.landed.wall)) : '',
      k === 0
        ? state.readingWritten === null
          ? 'not read'
          : timeWords(state.readingWritten.wall)
        : '',
    ]),
  );
  const first = session.states[0]?.readingWritten;
  return [
    tableOr(
      [
        ['State', 7],
        ['Weight', 9],
        ['From x, y, z, m', 19, 'right'],
        ['To x, y, z, m', 19, 'right'],
        ['Moment, t·m', 13, 'right'],
        ['Begun', 11, 'right'],
        ['Down', 11, 'right'],
        ['Read', 11, 'right'],
      ],
      rows,
      'No weight was moved.',
    ),
    note(
      `Moment: of all weights moved since state 0, to starboard positive. Times are UTC. ${first == null ? 'State 0 is not read.' : `State 0 was read at ${wallWords(first.wall)}.`}`,
    ),
  ];
}

/** What was not well with the laptop, the links and the boards while the test ran. */
function conditionBlocks({ session }: ReportedDay): Block[] {
  return [
    heading(2, 'Boards and faults through the day'),
    tableOr(
      [
        ['Stream of board', 26],
        ['Port', 16],
        ['Opened, s', 12, 'right'],
        ['Samples', 14, 'right'],
        ['Lost', 10, 'right'],
        ['Ended', 22],
      ],
      session.streams.map(
        ({ board, boardIsOurs, port, openedS, samples, skipped, open, reason }) => [
          boardIsOurs ? board : `${board} (named by hand)`,
          port,
          secondsWords(openedS),
          String(samples),
          String(skipped),
          open ? 'open' : (reason ?? 'closed'),
        ],
      ),
      'No board was connected.',
    ),
    tableOr(
      [
        ['Line', 10],
        ['Fault', 22],
        ['Where', 24],
        ['What was found', 44],
      ],
      session.faults.map(({ written, code, where, found }) => [
        String(written.line),
        code,
        where,
        found,
      ]),
      'No board named a fault.',
    ),
  ];
}

export function placeWords({ xM, yM, zM }: Place): string {
  return [xM, yM, zM].map((one) => significant(one, 7)).join(', ');
}

function timeWords(wall: string): string {
  return wall.slice(11, 19);
}
