import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { receiptOf, receiptText } from '#core/record/receipt.ts';
import { everyKindRecord } from '#tests/support/every-kind-record.ts';
import { startProgram } from '#tests/support/programs.ts';
import { rechained } from '#tests/support/rechained.ts';
import { RecordLines, readingBody, TEST_BODY } from '#tests/support/record-lines.ts';

const folder = mkdtempSync(join(tmpdir(), 'commands-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function run(...args: string[]): Promise<{ exit: number | null; said: string }> {
  const program = startProgram('receiver', args);
  await once(program.child, 'close');
  return { exit: program.child.exitCode, said: program.said };
}

const record = new RecordLines();
record.add('test-opened', TEST_BODY);
const reading = record.add('reading', readingBody(0));
record.add('remark', { text: 'calm', line: null }, 'witness');

function written(name: string, bytes: Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

describe('verify', () => {
  it('says that all lines hold, with the head, and exits 0', async () => {
    const { exit, said } = await run('verify', written('whole.hwr', record.bytes), '--json');
    expect(exit).toBe(0);
    expect(JSON.parse(said)).toEqual({
      holds: true,
      lines: 4,
      head: record.chain.head,
      record: 'test-record',
      knownLines: null,
      receiptHolds: null,
      receipt: receiptText(receiptOf({ lines: 4, head: record.chain.head })),
      signatures: [],
    });
  });

  it('holds the record against a receipt, and receipts and signatures in it against its lines', async () => {
    const signed = everyKindRecord(2);
    const { next: lines, head } = signed.chain;
    const receipt = receiptText(receiptOf({ lines, head }));
    const whole = written('signed.hwr', signed.bytes);
    const held = await run('verify', whole, '--receipt', receipt, '--json');
    expect(held.exit).toBe(0);
    expect(JSON.parse(held.said)).toMatchObject({
      receiptHolds: true,
      signatures: [{ role: 'witness' }],
    });

    const anew = written('anew.hwr', Buffer.concat(rechained(signed.lines, 3)));
    const bySignature = await run('verify', anew, '--json');
    expect(bySignature.exit).toBe(4);
    expect(JSON.parse(bySignature.said)).toMatchObject({ code: 'record-signature' });
    const later = written('later.hwr', Buffer.concat(rechained(signed.lines, lines - 1)));
    expect((await run('verify', later)).exit).toBe(0);
    const byReceipt = await run('verify', later, '--receipt', receipt, '--json');
    expect(byReceipt.exit).toBe(4);
    expect(JSON.parse(byReceipt.said)).toMatchObject({ code: 'record-chain' });
    expect((await run('verify', whole, '--receipt', '12 hub liberty')).exit).toBe(3);
  });

  it('holds the record against a head known from elsewhere', async () => {
    const whole = written('known.hwr', record.bytes);
    const head = ['--head', record.chain.head];
    expect((await run('verify', whole, ...head)).exit).toBe(0);
    expect((await run('verify', whole, ...head, '--lines', '4')).exit).toBe(0);
    const cut = written('cut.hwr', Buffer.concat(record.lines.slice(0, 3)));
    expect((await run('verify', cut)).exit).toBe(0);
    const found = await run('verify', cut, ...head, '--lines', '4', '--json');
    expect(found.exit).toBe(4);
    expect(JSON.parse(found.said)).toMatchObject({ code: 'record-chain', where: 'line 3' });
    expect((await run('verify', cut, ...head)).exit).toBe(4);
    expect((await run('verify', whole, '--lines', '4')).exit).toBe(3);
    expect((await run('verify', whole, '--head', 'abc')).exit).toBe(2);
  });

  it('names the first line that does not hold and exits 4', async () => {
    const changed = record.lines.with(
      reading,
      Buffer.from(
        Buffer.from(record.lines[reading]!).toString().replace('"heelDeg":0.5', '"heelDeg":0.6'),
      ),
    );
    const { exit, said } = await run('verify', written('changed.hwr', Buffer.concat(changed)));
    expect(exit).toBe(4);
    expect(said).toMatch(/^record-chain: .*line 3/);
    const torn = await run('verify', written('torn.hwr', record.bytes.subarray(0, -1)), '--json');
    expect(torn.exit).toBe(4);
    expect(JSON.parse(torn.said)).toMatchObject({ code: 'record-line', where: 'line 3' });
    expect((await run('verify', written('empty.hwr', Buffer.alloc(0)))).exit).toBe(4);
  });

  it('exits 3 for a file that cannot be read and 2 for wrong usage', async () => {
    expect((await run('verify', join(folder, 'none.hwr'))).exit).toBe(3);
    expect((await run('verify')).exit).toBe(2);
    expect((await run('verify', 'a', '--fast')).exit).toBe(2);
  });
});

describe('replay', () => {
  it('folds the lines to the state of the day', async () => {
    const { exit, said } = await run('replay', written('day.hwr', record.bytes), '--json');
    expect(exit).toBe(0);
    expect(JSON.parse(said)).toMatchObject({
      session: { record: 'test-record', lines: 4, awaits: 'shift' },
      result: { version: 1, refused: { code: 'input-too-few' } },
    });
  });

  it('exits 3 with the code of a line that does not hold', async () => {
    const { exit, said } = await run('replay', written('short.hwr', record.bytes.subarray(5)));
    expect(exit).toBe(3);
    expect(said).toMatch(/^record-line/);
  });
});

describe('schema', () => {
  it('prints a JSON Schema of each name it lists', async () => {
    const names = JSON.parse((await run('schema', '--json')).said) as string[];
    expect(names).toContain('test');
    const { exit, said } = await run('schema', 'test');
    expect(exit).toBe(0);
    expect(JSON.parse(said)).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      type: 'object',
      additionalProperties: false,
    });
    expect((await run('schema', 'constructor')).exit).toBe(3);
  });
});

describe('every command', () => {
  it.each(['demo', 'receive', 'replay', 'verify', 'schema', 'reduce'])(
    '%s has help with an example and exits 0',
    async (command) => {
      const { exit, said } = await run(command, '--help');
      expect(exit).toBe(0);
      expect(said).toMatch(/Examples?:/);
    },
  );
});
