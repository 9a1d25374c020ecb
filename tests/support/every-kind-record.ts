import type { LineKind } from '#core/record/line.ts';
import { PersonKey } from './person-key.ts';
import {
  blockBody,
  OPENED_BODY,
  PLACE,
  RecordLines,
  readingBody,
  STREAM,
  TEST_BODY,
} from './record-lines.ts';
import { EARLIER_ROLL, ROLL_RUN } from './roll-run-body.ts';
import { SMALL_JPEG } from './small-jpeg.ts';

/** A record of a few hundred lines in which every kind of line stands, and which folds. */
export function everyKindRecord(rounds = 40): RecordLines {
  const record = new RecordLines();
  record.add('test-opened', TEST_BODY);
  record.add('simulation', SIMULATION, 'simulator');
  record.add('mounting', MOUNTING);
  record.add('certificate', CERTIFICATE);
  record.add('station-clock', STATION_CLOCK, 'receiver');
  record.add('stream-opened', OPENED_BODY, 'device');
  record.add('board-clock', BOARD_CLOCK, 'device');
  record.add('certificate-replaced', {
    certificate: { ...CERTIFICATE, number: 'C2', scale: 1.003 },
    reason: 'C1 was made at another temperature',
  });
  record.add('instrument-remounted', {
    instrument: CERTIFICATE.instrument,
    certificate: { ...CERTIFICATE, number: 'C3', zero: 0.002 },
    reason: 'another sensor in its place',
  });
  record.add('sign-confirmed', {
    ...{ instrument: CERTIFICATE.instrument, beforeDeg: 0.01, pushedDeg: 0.4, seal: '117' },
  });
  const first = record.add('reading', readingBody(0));
  record.add('reading-voided', { line: first, reason: 'a wake' });
  record.add('hand-reading', HAND_READING, 'technician');
  for (let round = 0; round < rounds; round++) {
    record.add('samples', blockBody(2 + 2 * round, 10 * round), 'device');
    record.add('remark', { text: `remark ${round}, naïve – 🙂`, line: first }, 'witness');
    record.add(
      'stream-fault',
      {
        type: 'stream-fault',
        stream: STREAM,
        number: 3 + 2 * round,
        v: 1,
        code: 'leg-loop-broken',
        where: 'port',
        found: '0.1 V',
        stationS: round,
      },
      'device',
    );
    record.add(
      'disturbance',
      {
        fromS: record.nowS,
        toS: record.nowS + 0.5,
        kind: 'knock',
        instruments: null,
        evidence: 'all',
      },
      'receiver',
    );
    record.add('station-clock', { ...STATION_CLOCK, stationS: round + 1 }, 'receiver');
  }
  record.add('correction', {
    line: 1,
    changes: [{ field: ['weights', 0, 'massT'], was: 0.25, is: 0.251 }],
    reason: 'read off the wrong line of the certificate',
  });
  record.add('overruled', { line: lastOf(record, 'disturbance'), reason: 'nothing was touched' });
  record.add('reading', readingBody(0, 0.51));
  record.add('roll-run', ROLL_RUN);
  record.add('roll-condition', {
    condition: 'as inclined',
    draughtM: 1.9,
    earlier: [EARLIER_ROLL],
  });
  record.add('entry', {
    sheet: 'freeboard',
    occasion: 'before',
    key: 'forward port',
    value: { side: 'port', xM: 14, halfBreadthM: 2, heightM: 2.6, freeboardM: 0.9 },
    was: null,
    fromPaper: true,
  });
  record.add('photograph', {
    of: { sheet: 'freeboard', key: 'forward port' },
    caption: 'the mark',
    jpeg: SMALL_JPEG,
  });
  record.add('roll-run-refused', {
    line: lastOf(record, 'roll-run'),
    reason: 'people were still running',
  });
  addPeople(record);
  record.add(
    'stop-target',
    { standardErrorDeg: 0.012, restM: 0.01, mPerDeg: 0.3, missingDeg: 0.002 },
    'receiver',
  );
  record.add('time-mark', { mark: 1, words: 'a knock on the rail' });
  record.add('watching', { what: 'restarted', atS: record.nowS }, 'receiver');
  record.add('laptop-state', LAPTOP, 'receiver');
  record.add('record-repaired', { cutBytes: 12, why: 'the last write was cut short' }, 'receiver');
  record.add('shift-begun', {
    state: 1,
    moves: [{ weight: 'A', from: PLACE(-2), to: PLACE(2) }],
    heelingMomentTM: 1,
    predictedHeelDeg: null,
    predictedStandardErrorDeg: null,
  });
  record.add('weight-landed', { state: 1, landedS: record.nowS });
  record.add('reading', readingBody(1, 1.9));
  record.add('test-postponed', { reason: 'wind' });
  record.add('test-resumed', { reason: 'lines, tanks and weights as they were' });
  record.add('stream-closed', STREAM_CLOSED, 'device');
  record.add('test-closed', { reason: 'done' });
  return record;
}

/** A witness comes in, asks, is answered, receipts and signs. */
function addPeople(record: RecordLines): void {
  const key = new PersonKey('witness');
  const person = { person: '0badcafe', role: 'witness' as const, name: 'M. Quill' };
  record.add('person-admitted', { ...person, way: 'this machine' }, 'receiver');
  record.add('technician-work', { allowed: true, reason: 'the fore sensor is silent' });
  const { next: lines, head } = record.chain;
  record.add('receipt-taken', key.receipt('test-record', { lines, head }), 'witness');
  const asked = record.add('witness-asked', {
    what: 'repeat',
    text: 'a line was touched',
    line: 9,
  });
  record.add('witness-answered', { line: asked, text: 'it is read again' });
  const seal = record.add('seal', { reason: 'the readings are taken' });
  record.add('signature', key.signature('test-record', seal, record.chain.head), 'witness');
  record.add('access-withdrawn', person, 'receiver');
}

function lastOf(record: RecordLines, kind: LineKind): number {
  return record.lines.findLastIndex((bytes) => Buffer.from(bytes).includes(`"kind":"${kind}"`));
}

/** Kinds that stand in a record's bytes. */
export function kindsOf(record: RecordLines): Set<LineKind> {
  return new Set(
    record.lines.map(
      (bytes) => (JSON.parse(Buffer.from(bytes).toString()) as { kind: LineKind }).kind,
    ),
  );
}

const SIMULATION = {
  seed: 3,
  paceAsked: 1,
  paceHeld: 1,
  disturbances: { wind: false, gusts: false, wakes: false, walking: false, snaggedLine: false },
  truth: { gmFluidM: 0.9, displacementT: 46 },
};
const MOUNTING = {
  instrument: 'fore',
  label: 'Fore',
  kind: 'inclinometer' as const,
  sign: 1 as const,
  spanM: null,
  heightOverRollAxisM: 1,
  settlingS: 0,
};
export const CERTIFICATE = {
  number: 'C1',
  instrument: 'fore',
  method: 'sine bar',
  madeBy: 'A. Rowan',
  date: '2026-05-01',
  zero: 0.001,
  scale: 1.002,
  scaleUncertainty: 0.0015,
  leftOver: 0.001,
  temperatureC: 18,
  points: [[0.01, 0.0102] as [number, number]],
};
const STATION_CLOCK = {
  station: 'station-1',
  run: 'run-1',
  stationS: 0,
  receiverS: 1,
  rate: 1.000001,
  uncertaintyS: 0.0004,
};
const BOARD_CLOCK = {
  type: 'board-clock' as const,
  stream: STREAM,
  number: 1,
  v: 1 as const,
  boardUs: 0,
  stationS: 0,
  rate: 0.99998,
  uncertaintyS: 0.0003,
};
const HAND_READING = {
  state: 0,
  instrument: 'pendulum 1',
  kind: 'pendulum' as const,
  lengthMm: 3000,
  extremesMm: [24, 28, 25, 27],
  reader: 'B. Hale',
};
const LAPTOP = {
  matter: 'battery' as const,
  station: null,
  severity: 'notice' as const,
  found: '14 % left',
  sinceS: 3,
};
const STREAM_CLOSED = {
  type: 'stream-closed' as const,
  stream: STREAM,
  number: 82,
  v: 1 as const,
  reason: 'wanted' as const,
  closedStationS: 9,
};
