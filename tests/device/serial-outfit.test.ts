import { describe, expect, it } from 'vitest';
import { serialLine } from '#device/serial-outfit.ts';

const mounting = {
  instrument: 'clino',
  label: 'Clino',
  kind: 'inclinometer',
  sign: 1,
  spanM: null,
  heightOverRollAxisM: 0,
  settlingS: 1,
};
const tube = { ...mounting, kind: 'water-tube', spanM: 8 };
const heel = { quantity: 'heel', table: 'input', register: 0, type: 'int16', unit: 'deg' };
const leg = (quantity: string, change = {}) => ({ ...heel, quantity, unit: 'mm', ...change });
const modbus = (columns: object[], change: object = {}) => ({
  port: '/dev/ttyUSB1',
  name: 'tilt',
  protocol: 'modbus-rtu',
  instruments: [{ instrument: 'clino', unit: 1, columns, mounting, certificate: null, ...change }],
});
const nmea = (change: object = {}) => ({
  port: 'COM7',
  name: 'tilt',
  protocol: 'nmea-0183',
  instruments: [{ instrument: 'clino', sentence: 'XDR', mounting, certificate: null, ...change }],
});
const messageOf = (line: object) => serialLine.safeParse(line).error?.issues[0]?.message ?? null;

describe('a serial line of the outfit', () => {
  it('has the usual rate and parity of its protocol', () => {
    expect(serialLine.parse(nmea())).toMatchObject({ baudRate: 4800, parity: 'none', dataBits: 8 });
    const polled = { baudRate: 19_200, parity: 'even', pollMs: 100, deadlineMs: 200 };
    expect(serialLine.parse(modbus([heel]))).toMatchObject(polled);
  });

  it('may have a tube whose legs answer as two units', () => {
    const columns = [leg('port', { unitNumber: 2 }), leg('starboard')];
    expect(messageOf(modbus(columns, { mounting: tube }))).toBeNull();
  });

  it.each([
    ['a heel in mm', modbus([{ ...heel, unit: 'mm' }]), 'no heel is measured in mm'],
    ['no heel', modbus([leg('port')]), 'it needs the quantity heel'],
    ['one leg', modbus([leg('port')], { mounting: tube }), 'it needs the quantity starboard'],
    [
      'a leg in degrees',
      modbus([leg('port'), leg('starboard', { unit: 'deg' })], { mounting: tube }),
      'no level is measured in deg',
    ],
    [
      'no span',
      modbus([leg('port'), leg('starboard')], { mounting: { ...tube, spanM: null } }),
      'a water tube needs spanM',
    ],
    ['a quantity twice', modbus([heel, heel]), 'a quantity is given twice'],
    ['a tube by NMEA', nmea({ mounting: tube }), 'no sentence gives the levels of a tube'],
    [
      'the mounting of another',
      nmea({ mounting: { ...mounting, instrument: 'other' } }),
      'the mounting is of other',
    ],
  ])('is refused with %s', (_, line, message) => {
    expect(messageOf(line)).toBe(message);
  });

  it('is refused beyond its limits', () => {
    for (const change of [
      { baudRate: 1 },
      { pollMs: 1 },
      { deadlineMs: 0 },
      { name: 'a b' },
      { instruments: [] },
      { parity: 'mark' },
    ])
      expect(messageOf({ ...modbus([heel]), ...change })).not.toBeNull();
    expect(messageOf(modbus([{ ...heel, register: 65_536 }]))).not.toBeNull();
    expect(messageOf(modbus([heel], { unit: 248 }))).not.toBeNull();
  });
});
