import { describe, expect, it } from 'vitest';
import { replacementRefusal } from '#core/session/fold-certificate.ts';
import { certificateFigures } from '#ui/sensors/certificate-figures.ts';
import { certificateFromText } from '#ui/sensors/certificate-read.ts';
import { FakeDay } from '../../support/fake-day.ts';

describe('a certificate as text', () => {
  const { session } = new FakeDay();
  const fore = session.certificates[0]!;
  const read = (text: string) =>
    certificateFromText(text, fore.instrument, (one) => replacementRefusal(session, one));

  it('is taken when it can replace the one in force', () => {
    const second = { ...fore, number: 'F-02' };
    expect(read(JSON.stringify(second))).toEqual({ certificate: second, whyNot: null });
  });

  it.each([
    ['no JSON', '{', /no JSON/],
    ['a scale of nothing', JSON.stringify({ ...fore, scale: 0 }), /^scale: /],
    ['another instrument', JSON.stringify({ ...fore, instrument: 'tube' }), /of tube, not of/],
    ['a number used before', JSON.stringify(fore), /was in force before/],
    ['a whole book', ' '.repeat(50_000), /longer than/],
  ])('is refused with the reason for %s', (_, text, why) => {
    expect(read(text)).toMatchObject({ certificate: null, whyNot: expect.stringMatching(why) });
  });

  it('shows degrees for an inclinometer and millimetres for a tube', () => {
    const values = (tube: boolean) => certificateFigures(fore, tube).map(({ value }) => value);
    // asin(7.2e-5) is 0.00413 degree; 1.96 of 0.0015 * 0.9987 is 0.0029.
    expect(values(false).slice(1, 3)).toEqual(['+0.0041°', '0.9987 ± 0.0029']);
    expect(certificateFigures({ ...fore, zero: 0.31 }, true)[1]!.value).toBe('+0.31 mm');
  });
});
