import { describe, expect, it, test } from 'vitest';
import { certificateRefusal } from '#core/sample/certificate-refusal.ts';
import { aDay } from '#tests/core/session/a-day.ts';

const [certificate] = aDay({ states: 1 }).certificates;

test('a good certificate is used, none or a vague one says why not', () => {
  expect(certificateRefusal(certificate)).toBeNull();
  expect(certificateRefusal(undefined)).toBe('no calibration certificate');
  expect(certificateRefusal({ ...certificate!, scaleUncertainty: 0.02 })).toContain('2 %');
});

describe('a certificate that says what it was made for', () => {
  const made = (change: object = {}) => ({
    ...certificate!,
    item: {
      instrument: 'fore',
      part: 'iis2iclx',
      board: 'b1',
      bus: 'I2C',
      address: '0x6a',
      ...change,
    },
  });
  const found = { board: 'b1', part: 'iis2iclx', addresses: ['0x6a'], seal: null };

  it('holds for that, and where nothing has answered yet', () => {
    expect(certificateRefusal(made(), found)).toBeNull();
    expect(certificateRefusal(made(), null)).toBeNull();
    expect(certificateRefusal(made({ address: '106' }), found)).toBeNull();
    // An older board side says no address: board and part are still held to.
    expect(certificateRefusal(made(), { ...found, addresses: [] })).toBeNull();
  });

  it.each([
    ['another board', { board: 'b2' }, /board b2, what answers is b1/],
    ['another part', { part: 'lsm6dso' }, /part lsm6dso, what answers is iis2iclx/],
    ['another address', { address: '0x6b' }, /address 0x6b, what answers is 0x6a/],
  ])('removes the instrument on %s', (_, change, words) => {
    expect(certificateRefusal(made(change), found)).toMatch(words);
  });

  it('removes it under another seal, where somebody looked', () => {
    const sealed = made({ seal: '117' });
    expect(certificateRefusal(sealed, { ...found, seal: '118' })).toMatch(/seal 117, .* is 118/);
    expect(certificateRefusal(sealed, { ...found, seal: '117' })).toBeNull();
    expect(certificateRefusal(sealed, found)).toBeNull();
  });

  it('of two legs names both addresses, in any order', () => {
    const legs = { ...found, part: 'abp2', addresses: ['0x28', '0x38'] };
    const of = (address: string) => certificateRefusal(made({ part: 'abp2', address }), legs);
    expect(of('0x38, 0x28')).toBeNull();
    expect(of('0x28')).toMatch(/what answers is 0x28 and 0x38/);
  });
});
