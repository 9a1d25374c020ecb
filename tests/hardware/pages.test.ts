import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import papaparse from 'papaparse';
import { describe, expect, it } from 'vitest';
import { calibrationInput } from '#core/calibration/calibration-input.ts';
import { outfitFile } from '#device/outfit.ts';

const HARDWARE = new URL('../../hardware/', import.meta.url).pathname;
const read = (file: string) => readFileSync(path.join(HARDWARE, file), 'utf8');
const files = readdirSync(HARDWARE, { recursive: true, encoding: 'utf8' });
const pages = files.filter((file) => file.endsWith('.md'));
const drawings = files.filter((file) => file.endsWith('.svg'));

describe('the parts', () => {
  const { data, errors, meta } = papaparse.parse<Record<string, string>>(read('parts.csv').trim(), {
    header: true,
  });

  it('are a table without a gap', () => {
    expect(errors).toEqual([]);
    expect(meta.fields).toEqual(['part', 'quantity', 'for', 'page', 'dataSheet', 'costClass']);
    expect(data.length).toBeGreaterThan(10);
    expect(new Set(data.map(({ part }) => part)).size).toBe(data.length);
    for (const row of data) {
      for (const [field, value] of Object.entries(row))
        expect(value, `${row['part']} ${field}`).not.toBe('');
      expect(row['quantity']).toMatch(/^[1-9]\d*$/);
      expect(row['costClass']).toMatch(/^[A-E]$/);
    }
  });

  it('have a page each, which the first page leads to', () => {
    const linked = linksOf('README.md').map((link) => path.normalize(link));
    for (const { part, page } of data) {
      expect(existsSync(path.join(HARDWARE, page!)), `${part}: ${page}`).toBe(true);
      const isReached = linked.includes(page!) || linked.includes(path.dirname(page!));
      expect(isReached, `${page} from README.md`).toBe(true);
    }
  });
});

function linksOf(page: string): string[] {
  return [...read(page).matchAll(/\]\(([^)#\s]+)[^)]*\)/g)]
    .map(([, link]) => link!)
    .filter((link) => !/^[a-z]+:/.test(link));
}

describe('the pages', () => {
  it('lead nowhere that is not there', () => {
    const broken = pages.flatMap((page) =>
      linksOf(page)
        .filter((link) => !existsSync(path.join(HARDWARE, path.dirname(page), link)))
        .map((link) => `${page}: ${link}`),
    );
    expect(broken).toEqual([]);
  });

  it('show every drawing', () => {
    const shown = new Set(
      pages.flatMap((page) => linksOf(page).map((link) => path.join(path.dirname(page), link))),
    );
    expect(drawings.length).toBeGreaterThan(5);
    expect(drawings.filter((drawing) => !shown.has(drawing))).toEqual([]);
  });

  it('print instruments that the program takes', () => {
    const examples = pages.flatMap((page) =>
      [...read(page).matchAll(/```json\n([\s\S]*?)```/g)].map(([, text]) => JSON.parse(text!)),
    );
    const parsed = examples.map((example) => outfitFile.parse(example));
    expect(parsed.flatMap(({ serial }) => serial.map(({ protocol }) => protocol))).toEqual(
      expect.arrayContaining(['nmea-0183', 'modbus-rtu']),
    );
  });

  it('have the heights of the tilt jig right', () => {
    const rows = [...read('parts/tilt-jig.md').matchAll(/^\| (\d+) +\| ([\d., ]+?) +\|/gm)];
    expect(rows).toHaveLength(4);
    for (const [, lengthMm, heights] of rows) {
      const computed = [0.5, 1, 1.5, 2, 3, 4].map((deg) =>
        (Number(lengthMm) * Math.sin((deg * Math.PI) / 180)).toFixed(4),
      );
      expect(heights!.split(', ')).toEqual(computed);
    }
  });
});

describe('the drawings', () => {
  it('say what they show, and are drawn in one piece', () => {
    for (const drawing of drawings) {
      const text = read(drawing);
      expect(text, drawing).toMatch(/<title id="title">[^<]{10,}<\/title>/);
      expect(text, drawing).toMatch(/<desc id="desc">[^<]{30,}<\/desc>/);
      const open: string[] = [];
      for (const [, close, tag, self] of text.matchAll(/<(\/?)([a-z]+)[^>]*?(\/?)>/g)) {
        if (close === '/') expect(open.pop(), drawing).toBe(tag);
        else if (self === '') open.push(tag!);
      }
      expect(open, drawing).toEqual([]);
      expect(text, drawing).not.toMatch(/https?:(?!\/\/www\.w3\.org\/2000\/svg)|<script|href/);
    }
  });
});

describe('the blank sheets', () => {
  const shapeOf = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.slice(0, 1).map(shapeOf);
    if (typeof value !== 'object' || value === null) return 'value';
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, shapeOf(one)]));
  };

  it('have the places of the filled one, and are refused until they are filled', () => {
    const blank = JSON.parse(read('calibration/inclinometer-blank.json'));
    const filled = JSON.parse(read('calibration/fore-filled.json'));
    expect(shapeOf(blank)).toEqual(shapeOf(filled));
    expect(calibrationInput.safeParse(blank).success).toBe(false);
    expect(calibrationInput.safeParse(filled).success).toBe(true);
  });

  it('are what the program reads, once every place is filled', () => {
    const fill = (value: unknown, key = ''): unknown => {
      if (Array.isArray(value)) return value.map((one) => fill(one));
      if (value === null) return key === 'gravityMS2' ? 9.81 : 1;
      if (value === '') return key === 'date' ? '2026-11-20' : 'written in';
      if (typeof value !== 'object') return value;
      return Object.fromEntries(
        Object.entries(value).map(([name, one]) => [name, fill(one, name)]),
      );
    };
    for (const sheet of ['inclinometer-blank', 'water-tube-blank']) {
      const blank = JSON.parse(read(`calibration/${sheet}.json`));
      expect(calibrationInput.safeParse(blank).success, sheet).toBe(false);
      expect(() => calibrationInput.parse(fill(blank)), sheet).not.toThrow();
    }
  });
});
