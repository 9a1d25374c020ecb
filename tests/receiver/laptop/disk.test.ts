import { mkdtempSync, rmSync, statfsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { diskFinding, diskReader, GrowthRate } from '#receiver/laptop/disk.ts';

const MIB = 1024 * 1024;
const ASSUMED = 32 * MIB;

describe('what is free on the disk', () => {
  const folder = mkdtempSync(join(tmpdir(), 'disk-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('is what the system has for us, not what it keeps for its own user', async () => {
    const free = await diskReader(folder)();
    const { bavail, bsize, blocks } = statfsSync(folder);
    // Others write to the same disk meanwhile.
    expect(Math.abs(free! - bavail * bsize)).toBeLessThan(0.05 * blocks * bsize);
    expect(free).toBeLessThanOrEqual(blocks * bsize);
  });

  it('is null, and no error, of a folder that went away', async () => {
    expect(await diskReader(join(folder, 'unplugged'))()).toBeNull();
    expect(diskFinding(null, ASSUMED, true)).toMatchObject({
      severity: 'well',
      found: 'the system does not tell what is free',
    });
  });
});

describe('how fast a record grows', () => {
  it('is assumed until a minute is seen, then measured', () => {
    const growth = new GrowthRate();
    expect(growth.bytesAnHour(0, 0)).toBe(ASSUMED);
    expect(growth.bytesAnHour(59, 10 * MIB)).toBe(ASSUMED);
    expect(growth.bytesAnHour(60, MIB)).toBe(60 * MIB);
  });

  it('is of the last five minutes: a fast morning is forgotten', () => {
    const growth = new GrowthRate();
    growth.bytesAnHour(0, 0);
    growth.bytesAnHour(100, 1000 * MIB);
    for (let atS = 200; atS <= 400; atS += 100) growth.bytesAnHour(atS, 1000 * MIB);
    expect(growth.bytesAnHour(600, (1000 + 50) * MIB)).toBeCloseTo(600 * MIB, 0);
  });

  it('takes a pause for a pause, so that hours left do not become years', () => {
    const growth = new GrowthRate();
    growth.bytesAnHour(0, 5000);
    expect(growth.bytesAnHour(120, 5000)).toBe(MIB);
  });

  it('begins anew after the machine slept longer than it looks back', () => {
    const growth = new GrowthRate();
    growth.bytesAnHour(0, 0);
    growth.bytesAnHour(60, 10 * MIB);
    expect(growth.bytesAnHour(60 + 3600, 10 * MIB)).toBe(ASSUMED);
  });
});

describe('whether a day still fits on it', () => {
  const finding = (hours: number, was: boolean) => diskFinding(hours * ASSUMED, ASSUMED, was);

  it('is told under eight hours, and well again only from twelve', () => {
    expect(finding(8, false).severity).toBe('well');
    expect(finding(7.99, false).severity).toBe('notice');
    expect(finding(11.99, true).severity).toBe('notice');
    expect(finding(12, true).severity).toBe('well');
  });

  it('is said in minutes, hours, or as plenty, never in more than is known', () => {
    expect(finding(0, false).found).toBe('0 MB free, 0 minutes at the present rate');
    expect(finding(0.999, false).found).toContain(', 59 minutes at');
    expect(finding(2.04, false).found).toContain(', 2.0 hours at');
    expect(finding(100, false).found).toContain(', over 100 hours at');
  });

  it('never says more is left than there is', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e13, noNaN: true }),
        fc.double({ min: MIB, max: 1e12, noNaN: true }),
        (free, rate) => {
          const { found } = diskFinding(free, rate, false);
          const [, megabytes] = /^(\d+) MB free/.exec(found)!;
          expect(Number(megabytes) * 1e6).toBeLessThanOrEqual(free);
          const minutes = /, (\d+) minutes/.exec(found);
          if (minutes !== null) expect(Number(minutes[1])).toBeLessThanOrEqual((free / rate) * 60);
        },
      ),
    );
  });
});
