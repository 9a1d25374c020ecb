import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { hullEvidence, hullEvidenceAt } from '#core/hull/hull-evidence.ts';
import { hydrostaticsAt } from '#core/hull/hydrostatics.ts';
import { waterlineFromDraughts } from '#core/hull/waterline.ts';
import { measuredHullFromFile, spotChecksFromFile } from '#receiver/measured-hull-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'measured-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
}

// a triangle of half-breadth z on 20 m: volume z² L, KM = 2/3 T + (2/3 T³ L) / (T² L) = 4/3 T
const POINTS = [0, 4, 8, 12, 16, 20].flatMap((x) =>
  [0, 0.5, 1, 1.5, 2, 2.5, 3].map((z) => `${x},${z},${z}`),
);
const wedge = () => file('wedge.csv', ['xM,yM,zM', ...POINTS].join('\n'));
const spots = (beamM: number) =>
  JSON.stringify([2, 10, 18].map((xM) => ({ xM, beam: { zM: 2, beamM } })));

test('points measured ashore float as their wedge does, and their errors are carried on', async () => {
  const points = await measuredHullFromFile(wedge());
  const { hull } = points;
  const line = waterlineFromDraughts({ xM: 0, draughtM: 1.5 }, { xM: 20, draughtM: 1.5 }, 0);
  const set = hydrostaticsAt(hull, line, 1);
  expect(set.volumeM3).toBeCloseTo(45, 6);
  expect(set.kmTransverseM).toBeCloseTo(2, 6);
  const evidence = hullEvidenceAt(hull, line, 1, {
    points,
    spots: spotChecksFromFile(file('s', spots(4.08))),
  });
  expect(hullEvidence.parse(JSON.parse(JSON.stringify(evidence)))).toEqual(evidence);
  expect(evidence.measured!.pointUncertaintyM).toBeGreaterThan(0);
  expect(evidence.causes).toHaveLength(2);
  // 2 % broader all along: 2 % of 45 t, and twice that of BM = 1 m
  expect(evidence.causes[1]!.displacementT).toBeCloseTo(0.9, 6);
  expect(evidence.causes[1]!.kmM).toBeCloseTo(0.04, 6);
  // broader is heavier and higher in the metacentre at once
  expect(evidence.causes[1]!.correlation).toBe(1);
  expect(evidence.differences.every((one) => one.doubtful)).toBe(true);
});

test('spot checks that are not of the form are refused by field', () => {
  expect(() => spotChecksFromFile(file('bad', '[{"xM":"two"}]'))).toThrow('0.xM');
  expect(() => spotChecksFromFile(file('none', '{'))).toThrow('input-not-json');
});
