import { expect, it } from 'vitest';
import { certificateRows, partInstruments } from '#core/report/part-instruments.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';

it('has each instrument, its agreement, its own zero and its certificate', () => {
  const texts = textsOf(partInstruments(reportedDayOf(aDay({ readingDeg: 0.002 }))));
  for (const one of ['fore', 'aft', 'tube'])
    expect(texts.filter((text) => text === one).length).toBeGreaterThanOrEqual(3);
  expect(texts).toContain('C-tube, 2026-05-01, made by A. Rowan');
  expect(texts).toContain('not met');
});

it('says what a certificate does not state', () => {
  const certificate = aDay().certificates[0]!;
  const rows = new Map(certificateRows(certificate));
  expect(rows.get('Seal')).toBe('not stated');
  expect(rows.get('Scale')).toBe('1, standard uncertainty 0.15 %');
});

it('tells what was changed about an instrument', () => {
  const day = aDay();
  const certificate = day.certificates[0]!;
  const written = {
    line: 9,
    wall: '2026-05-04T10:00:00.000Z',
    receiverS: 1,
    author: 'T. Lisle',
    role: 'technician',
  };
  const texts = textsOf(
    partInstruments(
      reportedDayOf({
        ...day,
        replacedCertificates: [
          { certificate: { ...certificate, number: 'old' }, written, reason: 'wrong bar' },
        ],
        remounted: [{ instrument: 'aft', certificate: null, written, reason: 'knocked over' }],
      }),
    ),
  );
  expect(texts).toEqual(
    expect.arrayContaining([
      'certificate old replaced',
      'wrong bar',
      'put down anew',
      'knocked over',
    ]),
  );
});
