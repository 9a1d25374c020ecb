import { Fault } from '../fault/fault.ts';
import type { Line } from '../record/line.ts';
import type { PeopleState } from './session.ts';
import { writtenOf } from './written.ts';

export type PeopleLine = Extract<
  Line,
  {
    kind:
      | 'person-admitted'
      | 'access-withdrawn'
      | 'witness-asked'
      | 'witness-answered'
      | 'receipt-taken'
      | 'seal'
      | 'signature'
      | 'technician-work';
  }
>;

/** A day has a handful; a hostile record may hold any number, and screens are sent them all. */
const MOST_PEOPLE = 200;
const MOST_RECEIPT_KEYS = 50;

export const EMPTY_PEOPLE: PeopleState = {
  admitted: [],
  asks: [],
  receipts: [],
  seals: [],
  technicianWork: null,
};

/** A line carries the digest of the one before it; of a seal it is kept. */
export function sealDigested(people: PeopleState, line: Line): PeopleState {
  const at = people.seals.length - 1;
  const last = people.seals[at];
  if (last === undefined || last.written.line !== line.n - 1) return people;
  return { ...people, seals: people.seals.with(at, { ...last, digest: line.prev }) };
}

/** People's part of the session after one more line. Throws `record-line` where it contradicts those before. */
export function peopleAfter(people: PeopleState, line: PeopleLine): PeopleState {
  const written = writtenOf(line);
  switch (line.kind) {
    case 'person-admitted':
      return {
        ...people,
        admitted: [
          ...people.admitted.slice(-(MOST_PEOPLE - 1)),
          { written, ...line.body, withdrawn: null },
        ],
      };
    case 'access-withdrawn':
      return {
        ...people,
        admitted: people.admitted.map((one) =>
          one.person === line.body.person ? { ...one, withdrawn: one.withdrawn ?? written } : one,
        ),
      };
    case 'witness-asked':
      return { ...people, asks: [...people.asks, { written, ...line.body, answers: [] }] };
    case 'witness-answered':
      return { ...people, asks: answered(people.asks, line) };
    case 'receipt-taken': {
      const { lines, head, publicKey } = line.body;
      const others = people.receipts.filter((one) => one.publicKey !== publicKey);
      return {
        ...people,
        receipts: [...others.slice(-(MOST_RECEIPT_KEYS - 1)), { written, lines, head, publicKey }],
      };
    }
    case 'seal':
      return {
        ...people,
        seals: [
          ...people.seals,
          { written, digest: null, reason: line.body.reason, signatures: [] },
        ],
      };
    case 'signature':
      return { ...people, seals: signed(people.seals, line) };
    case 'technician-work': {
      const { allowed, reason } = line.body;
      return { ...people, technicianWork: allowed ? { written, reason } : null };
    }
  }
}

function answered(
  asks: PeopleState['asks'],
  line: Extract<Line, { kind: 'witness-answered' }>,
): PeopleState['asks'] {
  const at = asks.findIndex((ask) => ask.written.line === line.body.line);
  const ask = asks[at];
  if (ask === undefined) throw contradicts(line, `line ${line.body.line} asks for nothing`);
  const answer = { written: writtenOf(line), text: line.body.text };
  return asks.with(at, { ...ask, answers: [...ask.answers, answer] });
}

function signed(
  seals: PeopleState['seals'],
  line: Extract<Line, { kind: 'signature' }>,
): PeopleState['seals'] {
  const { seal, publicKey } = line.body;
  const at = seals.findIndex(({ written }) => written.line === seal);
  const of = seals[at];
  if (of === undefined) throw contradicts(line, `line ${seal} is no seal`);
  const signature = { written: writtenOf(line), publicKey };
  return seals.with(at, { ...of, signatures: [...of.signatures, signature] });
}

function contradicts(line: PeopleLine, found: string): Fault {
  return new Fault('record-line', `line ${line.n} (${line.kind})`, found);
}
