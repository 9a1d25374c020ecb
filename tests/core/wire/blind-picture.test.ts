import { expect, it } from 'vitest';
import { blindPicture } from '#core/wire/blind-picture.ts';
import type { LivePicture } from '#core/wire/screen-message.ts';

it('a picture for who reads by eye says that she is steady and no figure of her heel', () => {
  const estimate = {
    heelDeg: 1.23456,
    standardErrorDeg: 0.002,
    degreesOfFreedom: 20,
    halfWidth95Deg: 0.004,
  };
  const live: LivePicture = {
    type: 'live',
    receiverS: 100,
    wall: '2026-05-04T09:00:00.000Z',
    whole: false,
    instruments: [
      {
        instrument: 'i',
        label: 'fore',
        verdict: 'steady',
        reason: 'heel 1.23456',
        estimate,
        refused: null,
        temperatureC: 12,
        trace: { atS: [99.9, 100], heelDeg: [1.23456, 1.23457] },
      },
    ],
    joined: {
      ...{ verdict: 'steady', reason: 'heel 1.23456', estimate, readable: true, whyNot: null },
      ...{ countedS: 60, inAMinuteDeg: null, remainingS: 0 },
    },
    notUsed: [],
    simulation: null,
    notRecording: null,
    saved: { wall: '2026-05-04T09:00:00.000Z', line: 3, head: '00' },
    stations: [],
  };
  const blind = blindPicture(live);
  expect(JSON.stringify(live)).toContain('1.2345');
  expect(JSON.stringify(blind)).not.toContain('1.2345');
  expect(blind).toMatchObject({ whole: true, joined: { verdict: 'steady', readable: true } });
  expect(blind.instruments[0]).toMatchObject({ verdict: 'steady', temperatureC: 12 });
});
