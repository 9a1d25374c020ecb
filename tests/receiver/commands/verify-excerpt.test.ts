import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { excerptLine } from '#core/report/excerpt.ts';
import { verifyExcerpt } from '#receiver/commands/verify-excerpt.ts';
import { nodeSha256Hex } from '#receiver/node-digest.ts';
import { everyKindRecord } from '#tests/support/every-kind-record.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'excerpt-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  process.exitCode = undefined;
  vi.restoreAllMocks();
});

function verified(text: Buffer): { exit: number; said: string } {
  let said = '';
  vi.spyOn(console, 'log').mockImplementation((words: string) => {
    said += words;
  });
  vi.spyOn(console, 'error').mockImplementation((words: string) => {
    said += words;
  });
  process.exitCode = undefined;
  const path = join(folder, 'lines.jsonl');
  writeFileSync(path, text);
  verifyExcerpt(path, true);
  return { exit: Number(process.exitCode ?? 0), said };
}

it('comes to the record’s own head from the lines of a report, and names the line that was changed', () => {
  const record = everyKindRecord(3);
  const lines = record.lines.map((bytes) =>
    Buffer.from(excerptLine(readLine(bytes, 'test').line, bytes, nodeSha256Hex)),
  );
  const good = verified(Buffer.concat(lines));
  expect(good.exit).toBe(0);
  expect(JSON.parse(good.said)).toMatchObject({
    ...{ holds: true, lines: record.chain.next, leftOut: 4, head: record.chain.head },
  });
  const changed = lines.with(1, Buffer.from(lines[1]!.toString().replace('Marram', 'Murram')));
  const bad = verified(Buffer.concat(changed));
  expect(bad.exit).toBe(4);
  expect(bad.said).toContain('line 2');
  expect(verified(Buffer.alloc(0)).exit).toBe(4);
  expect(verified(Buffer.from('{"leftOut":0}\n')).exit).toBe(4);
});
