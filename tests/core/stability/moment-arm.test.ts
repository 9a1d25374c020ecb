import { describe, expect, it } from 'vitest';
import {
  armAreaMRad,
  netAreaMRad,
  restUnderRad,
  secondMeetingRad,
} from '#core/stability/moment-arm.ts';
import { leversOf } from '../../support/made-evidence.ts';

// GZ = 0.4 sin 2h, area 0.2 (1 - cos 2h).
const levers = leversOf(
  (heel) => 0.4 * Math.sin(2 * heel),
  (heel) => 0.2 * (1 - Math.cos(2 * heel)),
);

describe('a heeling lever against the righting levers', () => {
  it('integrates a lever that falls with the cosine', () => {
    expect(armAreaMRad(Math.cos, 0.1, 1.3)).toBeCloseTo(Math.sin(1.3) - Math.sin(0.1), 13);
    expect(armAreaMRad(() => 0.07, 0.2, 0.2)).toBe(0);
  });

  it('meets it twice, at heels known in closed form', () => {
    const against = { levers, armM: () => 0.2 };
    const rest = restUnderRad(against)!;
    expect(rest).toBeCloseTo(Math.PI / 12, 12);
    expect(secondMeetingRad(against, rest)).toBeCloseTo((5 * Math.PI) / 12, 12);
    const area = netAreaMRad(against, rest, (5 * Math.PI) / 12);
    expect(area).toBeCloseTo(0.4 * Math.cos(Math.PI / 6) - (0.2 * Math.PI) / 3, 12);
  });

  it('finds no rest under more than she has, and no second meeting where she has more to the end', () => {
    expect(restUnderRad({ levers, armM: () => 0.41 })).toBeNull();
    const stiff = leversOf(Math.sin, (heel) => 1 - Math.cos(heel), 1);
    expect(secondMeetingRad({ levers: stiff, armM: () => 0.1 }, 0.11)).toBeNull();
  });
});
