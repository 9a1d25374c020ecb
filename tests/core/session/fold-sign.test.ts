import { expect, test } from 'vitest';
import type { Line } from '#core/record/line.ts';
import { foldLine } from '#core/session/fold.ts';
import { confirmingRefusal } from '#core/session/fold-sign.ts';
import { aDay } from './a-day.ts';

const day = aDay();
const told = { instrument: 'fore', beforeDeg: 0, pushedDeg: 0.3, seal: '117' };
const line = (body: typeof told): Line => ({
  n: day.lines,
  kind: 'sign-confirmed',
  v: 1,
  prev: '0'.repeat(64),
  wall: '2026-05-04T07:00:00.000Z',
  receiverS: 5,
  author: 'T. Reed',
  role: 'technician',
  body,
});

test('who saw it is kept with what was seen', () => {
  const [sign] = foldLine(day, line(told)).signs;
  expect(sign).toMatchObject({ ...told, written: { author: 'T. Reed', role: 'technician' } });
});

test('an instrument nobody mounted, and one that goes the wrong way, confirm nothing', () => {
  expect(confirmingRefusal(day, { ...told, instrument: 'abacus' })?.code).toBe(
    'instrument-unknown',
  );
  expect(confirmingRefusal(day, { ...told, pushedDeg: -0.3 })?.code).toBe('sign-wrong');
  expect(() => foldLine(day, line({ ...told, pushedDeg: -0.3 }))).toThrow(/record-line/);
});
