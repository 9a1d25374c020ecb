import { describe, expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { EMPTY_SESSION, foldLine, foldLines } from '#core/session/fold.ts';
import {
  blockBody,
  OPENED_BODY,
  PLACE,
  RecordLines,
  readingBody,
  TEST_BODY,
} from '#tests/support/record-lines.ts';

function linesOf(record: RecordLines) {
  return record.lines.map((bytes) => readLine(bytes, 'test').line);
}

describe('the fold', () => {
  const record = new RecordLines();
  record.add('test-opened', TEST_BODY);
  record.add('stream-opened', OPENED_BODY, 'device');
  record.add('samples', blockBody(1, 0), 'device');
  const first = record.add('reading', readingBody(0, 0.02));
  record.add('remark', { text: 'a ferry passed', line: first }, 'witness');
  record.add('reading-voided', { line: first, reason: 'ferry' });
  record.add('reading', readingBody(0, 0.01));
  record.add('shift-begun', {
    state: 1,
    moves: [{ weight: 'A', from: PLACE(-2), to: PLACE(2) }],
    heelingMomentTM: 1,
    predictedHeelDeg: 1.2,
    predictedStandardErrorDeg: 0.1,
  });

  it('is the same whether lines come one by one or all at once', () => {
    const lines = linesOf(record);
    let session = EMPTY_SESSION;
    for (const line of lines) session = foldLine(session, line);
    expect(foldLines(lines)).toEqual(session);
    expect(session.lines).toBe(record.lines.length);
  });

  it('keeps a voided reading with its reason beside the one that counts', () => {
    const { states, remarks } = foldLines(linesOf(record));
    expect(states[0]?.reading?.joined.heelDeg).toBe(0.01);
    expect(states[0]?.voided).toMatchObject([
      { reason: 'ferry', reading: { joined: { heelDeg: 0.02 } }, written: { line: first } },
    ]);
    expect(remarks).toMatchObject([{ text: 'a ferry passed', line: first }]);
  });

  it('changes nothing of the state it was given', () => {
    const lines = linesOf(record);
    const before = foldLines(lines.slice(0, -1));
    const copy = structuredClone(before);
    foldLine(before, lines.at(-1)!);
    expect(before).toEqual(copy);
  });

  it('keeps the newest certificate of an instrument in the place of the one before', () => {
    const certified = new RecordLines();
    const certificate = (instrument: string, number: string) => ({
      number,
      instrument,
      method: 'sine bar',
      madeBy: 'test',
      date: '2026-11-01',
      zero: 0,
      scale: 1,
      scaleUncertainty: 0.0015,
      leftOver: 0.001,
      temperatureC: null,
      points: [],
    });
    certified.add('certificate', certificate('fore', 'C1'));
    certified.add('certificate', certificate('aft', 'C2'));
    certified.add('certificate', certificate('fore', 'C3'));
    const { certificates } = foldLines(linesOf(certified));
    expect(certificates.map(({ number }) => number)).toEqual(['C3', 'C2']);
  });
});
