import { describe, expect, it } from 'vitest';
import type { Line } from '#core/record/line.ts';
import type { Certificate } from '#core/sample/certificate.ts';
import { heelDegFromSine } from '#core/sample/indicated-heel.ts';
import { foldLine } from '#core/session/fold.ts';
import { heelByCertificate } from '#core/session/heel-by-certificate.ts';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import { sessionOfIssue } from '#core/session/session-of-issue.ts';
import { aDay } from './a-day.ts';

const day = aDay({ stateDeg: 0.002, readingDeg: 0.002 });
const first = day.certificates[0]!;
const second: Certificate = { ...first, number: 'C-fore-2', zero: 0.002, scale: 1.01 };

/**
 * Half the variance of the roll (0.009 rad to either side) times the bend of the correction,
 * zero + heel * 2 * (scale - 1) = 0.0026 a radian: 5.3e-8 rad.
 */
const SECOND_ORDER_DEG = 4e-6;

function replaced(session: SessionState, certificate: Certificate): SessionState {
  const line: Line = {
    n: session.lines,
    kind: 'certificate-replaced',
    v: 1,
    prev: '0'.repeat(64),
    wall: '2026-05-04T15:00:00.000Z',
    receiverS: 9000,
    author: 'A. Rowan',
    role: 'architect',
    body: { certificate, reason: 'calibrated again after the test' },
  };
  return foldLine(session, line);
}

describe('a certificate replaced', () => {
  const after = replaced(day, second);

  it('corrects readings anew: the mean of a rolling heel, to the second order', () => {
    const mounting = day.mountings[0]!;
    const rolling = Array.from(
      { length: 400 },
      (_, k) => 0.03 + 0.009 * Math.sin((k * Math.PI) / 50),
    );
    const mean = (certificate: Certificate) =>
      rolling.reduce(
        (sum, angle) => sum + heelDegFromSine(Math.sin(angle), { mounting, certificate })!,
        0,
      ) / rolling.length;
    const read = { ...day.states[0]!.reading!.instruments[0]!, heelDeg: mean(first) };
    expect(heelByCertificate(day, read, 1)).toBe(read.heelDeg);
    expect(Math.abs(heelByCertificate(after, read, 1)! - mean(second))).toBeLessThan(
      SECOND_ORDER_DEG,
    );
    expect(Math.abs(read.heelDeg - mean(second))).toBeGreaterThan(0.1);
  });

  it('changes the result by the fold alone, says who and why, and keeps the earlier issue', () => {
    const before = resultOfSession(day);
    const now = resultOfSession(after);
    expect([before.issue, now.issue]).toEqual([1, 2]);
    expect(after.replacedCertificates).toMatchObject([
      {
        certificate: first,
        reason: 'calibrated again after the test',
        written: { author: 'A. Rowan' },
      },
    ]);
    // Fore now shows 1 % more heel: its GM is 1 % smaller, and the GM of all is smaller.
    const alone = (result: typeof now) => result.instruments[0]!.gmAloneM!.value;
    expect(Math.abs((1.01 * alone(now)) / alone(before) - 1)).toBeLessThan(1e-3);
    expect(alone(now)).toBeLessThan(alone(before));
    expect(now.gmFluidM!.value).toBeLessThan(before.gmFluidM!.value);
    expect(resultOfSession(sessionOfIssue(after, 1))).toEqual(before);
    expect(sessionOfIssue(after, 2)).toEqual(after);
    expect(() => sessionOfIssue(after, 3)).toThrow(RangeError);
  });

  it('is refused for an instrument without one, and under a number used before', () => {
    expect(() => replaced(day, { ...second, instrument: 'mast' })).toThrow(/no certificate yet/);
    expect(() => replaced(after, { ...second, number: first.number })).toThrow(/in force before/);
    expect(() => replaced(after, second)).toThrow(/in force before/);
  });
});
