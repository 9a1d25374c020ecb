import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import type { FileHandle } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { EMPTY_CHAIN } from '#core/record/chain.ts';
import { followLine } from '#core/record/follow-chain.ts';
import type { Line } from '#core/record/line.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import { RecordFile } from '#receiver/record-file.ts';
import type { RecordDisk } from '#receiver/record-opening.ts';
import {
  blockBody,
  OPENED_BODY,
  RecordLines,
  readingBody,
  TEST_BODY,
} from '#tests/support/record-lines.ts';
import { randomFromSeed } from '#tests/support/seeded.ts';

const WHO = { author: 'E. Thorne', role: 'architect' } as const;
const CLOCK = { monotonicS: () => 1, wallMs: () => 1_800_000_000_000 };
let folder = '';
let path = '';
const open: RecordFile[] = [];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'record-'));
  path = join(folder, 'day.hwr');
});
afterEach(async () => {
  for (const file of open.splice(0)) await file.close();
  rmSync(folder, { recursive: true });
});

async function opened(
  more: { follow?: (line: Line) => void; disk?: (handle: FileHandle) => RecordDisk } = {},
): Promise<RecordFile> {
  const file = await RecordFile.open({
    path,
    program: 'test',
    follow: ({ line }) => more.follow?.(line),
    clock: () => CLOCK,
    ...(more.disk === undefined ? {} : { disk: more.disk }),
  });
  open.push(file);
  return file;
}

/** Lines of the file, each proven to follow from the one before. */
function provenLines(): Line[] {
  const lines: Line[] = [];
  let chain = EMPTY_CHAIN;
  for (const text of readFileSync(path, 'utf8').split(/(?<=\n)/)) {
    const followed = followLine(chain, Buffer.from(text), sha256Hex);
    chain = followed.chain;
    lines.push(followed.read.line);
  }
  return lines;
}

const remark = (text: string) => ({ text, line: null });

describe('the record file', () => {
  it('is for its owner only and begins with its opening, on disk when it is open', async () => {
    const file = await opened();
    expect(statSync(path).mode & 0o777).toBe(process.platform === 'win32' ? 0o666 : 0o600);
    expect(provenLines()).toMatchObject([
      { n: 0, kind: 'record-opened', body: { record: file.id } },
    ]);
    expect(file.saved.lines).toBe(1);
  });

  it('puts the bytes of a stream item into its line unchanged', async () => {
    const file = await opened();
    const body = { ...OPENED_BODY };
    const text = JSON.stringify(body).replace('"v":1', '"v": 1');
    file.appendText('stream-opened', body, text, { author: 'station-1', role: 'device' });
    await file.commit();
    expect(readFileSync(path, 'utf8')).toContain(`"body":${text}}\n`);
  });

  it('loses nothing that is appended while a group is on its way to the disk', async () => {
    const slow = (handle: FileHandle): RecordDisk => ({
      write: async (bytes, at) => {
        await new Promise((resolve) => setTimeout(resolve, 5));
        await handle.write(bytes, 0, bytes.length, at);
      },
      sync: () => handle.datasync(),
      close: () => handle.close(),
    });
    const file = await opened({ disk: slow });
    for (let count = 0; count < 60; count += 1) {
      file.append('remark', remark(`${count}`), WHO);
      if (count % 7 === 0) void file.commit();
      if (count % 3 === 0) await new Promise((resolve) => setTimeout(resolve, 2));
    }
    await file.whenSaved();
    const texts = provenLines().flatMap((line) => (line.kind === 'remark' ? line.body.text : []));
    expect(texts).toEqual(Array.from({ length: 60 }, (_, count) => `${count}`));
  });

  it('tells a line as saved only after it was written and synced', async () => {
    const order: string[] = [];
    const disk = (handle: FileHandle): RecordDisk => ({
      write: async (bytes, at) => {
        await handle.write(bytes, 0, bytes.length, at);
        order.push('written');
      },
      sync: async () => {
        await handle.datasync();
        order.push('synced');
      },
      close: () => handle.close(),
    });
    const file = await opened({ disk });
    order.length = 0;
    file.onCommitted = (lines) => order.push(`saved ${lines}`);
    file.append('remark', remark('one'), WHO);
    file.append('remark', remark('two'), WHO);
    await file.whenSaved();
    expect(order).toEqual(['written', 'synced', 'saved 3']);
  });

  it('on a full disk says so, acknowledges nothing, and goes on without a loss when there is room', async () => {
    let room = 600;
    const disk = (handle: FileHandle): RecordDisk => ({
      write: async (bytes, at) => {
        const fits = Math.min(bytes.length, Math.max(0, room - at));
        await handle.write(bytes, 0, fits, at);
        if (fits < bytes.length) throw new Error('ENOSPC: no space left on device');
      },
      sync: () => handle.datasync(),
      close: () => handle.close(),
    });
    const file = await opened({ disk });
    const heard: (string | null)[] = [];
    file.onDisk = (fault) => heard.push(fault?.code ?? null);
    file.append('remark', remark('x'.repeat(300)), WHO);
    await file.commit();
    file.append('remark', remark('second'), WHO);
    await file.commit();
    expect(file.saved.lines).toBe(1);
    expect(file.fault?.code).toBe('record-disk');
    room = Infinity;
    await file.whenSaved();
    expect(file.saved.lines).toBe(3);
    expect(provenLines()).toHaveLength(3);
    expect(heard).toEqual(['record-disk', null]);
  });

  it('is written by one receiver at a time', async () => {
    const file = await opened();
    await expect(opened()).rejects.toThrowError(/^record-locked/);
    await file.close();
    open.length = 0;
    await opened();
  });

  it('enters nothing that a follower refuses, and goes on', async () => {
    let session = EMPTY_SESSION;
    const file = await opened({
      follow: (line) => {
        session = foldLine(session, line);
      },
    });
    expect(() => file.append('reading', readingBody(0), WHO)).toThrowError(/no test is open/);
    file.append('test-opened', TEST_BODY, WHO);
    file.append('reading', readingBody(0), WHO);
    await file.commit();
    expect(provenLines().map(({ kind }) => kind)).toEqual([
      'record-opened',
      'test-opened',
      'reading',
    ]);
  });
});

describe('a record whose end was cut short', () => {
  const record = new RecordLines();
  record.add('test-opened', TEST_BODY);
  record.add('stream-opened', OPENED_BODY, 'device');
  record.add('samples', blockBody(1, 0, 3), 'device');
  record.add('remark', remark('calm'), 'witness');
  const whole = record.bytes;
  const lastTwo = record.lines.slice(-2).reduce((sum, bytes) => sum + bytes.length, 0);

  /** Opens the bytes as a record; what became of them, and what was kept aside. */
  async function repaired(bytes: Uint8Array): Promise<Line[]> {
    writeFileSync(path, bytes);
    const file = await opened();
    await file.close();
    open.length = 0;
    const lines = provenLines();
    const cut = readdirSync(folder).filter((name) => name.includes('.cut-at-'));
    const repair = lines.find((line) => line.kind === 'record-repaired');
    expect(cut.length).toBe(repair === undefined ? 0 : 1);
    for (const name of cut) {
      expect(statSync(join(folder, name)).size).toBe(
        repair?.kind === 'record-repaired' ? repair.body.cutBytes : -1,
      );
      rmSync(join(folder, name));
    }
    rmSync(path);
    return lines;
  }

  it('opens at every byte of its last lines, with every whole line kept and the cut said', async () => {
    for (let length = whole.length - lastTwo; length <= whole.length; length += 1) {
      const lines = await repaired(whole.subarray(0, length));
      const kept = record.lines.filter((_, index) => endOf(index) <= length).length;
      const clean =
        length === whole.length - lastTwo || length === whole.length || endOf(3) === length;
      expect([length, lines.length]).toEqual([length, clean ? kept : kept + 1]);
      if (!clean) expect(lines.at(-1)?.kind).toBe('record-repaired');
    }
  });

  const endOf = (index: number) =>
    record.lines.slice(0, index + 1).reduce((sum, bytes) => sum + bytes.length, 0);

  it('opens when its end is zeros or garbage instead', async () => {
    const random = randomFromSeed(3);
    for (let cut = whole.length - lastTwo + 1; cut < whole.length; cut += 37) {
      const zeros = Buffer.from(whole).fill(0, cut);
      expect((await repaired(zeros)).at(-1)?.kind).toBe('record-repaired');
      const garbage = Buffer.from(whole);
      for (let at = cut; at < whole.length; at += 1) garbage[at] = Math.floor(random() * 256);
      expect((await repaired(garbage)).at(-1)?.kind).toBe('record-repaired');
    }
  });

  it('is not cut where a line in the middle was changed: that is no torn write', async () => {
    for (const [before, after] of [
      ['Marram', 'Merram'],
      ['"weights"', '"weights" '],
      ['"body":{', '"body":['],
    ] as const) {
      const changed = Buffer.from(whole.toString('utf8').replace(before, after));
      writeFileSync(path, changed);
      await expect(opened()).rejects.toThrowError(/^record-(line|chain)/);
      expect(readFileSync(path)).toEqual(changed);
    }
  });

  it('is not touched when it is some other file', async () => {
    for (const text of ['my letter\nto the owner\n', '{"n":0}\n', 'x']) {
      writeFileSync(path, text);
      await expect(opened()).rejects.toThrowError(/^record-line/);
      expect(readFileSync(path, 'utf8')).toBe(text);
    }
  });

  it('begins anew when not even its first line was written whole', async () => {
    const first = record.lines[0]!;
    for (const length of [0, 1, 30, first.length - 1]) {
      writeFileSync(path, first.subarray(0, length));
      const file = await opened();
      await file.close();
      open.length = 0;
      expect(provenLines().map(({ kind }) => kind)).toEqual(['record-opened']);
    }
  });
});
