import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { answerOf } from '#receiver/laptop/child-answer.ts';

const node = (script: string) => answerOf(process.execPath, ['-e', script]);

describe('answerOf', () => {
  const folder = mkdtempSync(join(tmpdir(), 'answer-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('is what the tool prints, and not what it complains of', async () => {
    expect(await node('console.error("a warning"); console.log("57 % – entladen")')).toBe(
      '57 % – entladen\n',
    );
    expect(await node('')).toBe('');
  });

  it('is null where there is no such tool, or it is a file that is no program', async () => {
    expect(await answerOf('no-such-tool-here', ['-x'])).toBeNull();
    const file = join(folder, 'tool');
    writeFileSync(file, 'not a program', { mode: 0o600 });
    expect(await answerOf(file, [])).toBeNull();
  });

  it('is null of a tool that fails after it printed, or dies', async () => {
    expect(await node('console.log("half"); process.exitCode = 3')).toBeNull();
    expect(await node('console.log("half"); process.kill(process.pid, "SIGKILL")')).toBeNull();
  });

  it('is null of one that prints without end, which is ended', async () => {
    expect(await node('for (;;) console.log("y".repeat(1000))')).toBeNull();
  });

  it('hands arguments on as they are: no shell reads them', async () => {
    const said = await answerOf(process.execPath, [
      ...['-e', 'console.log(process.argv.slice(1).join("|"))', '--'],
      ...['$(id)', '; exit 1', 'a b'],
    ]);
    expect(said).toBe('$(id)|; exit 1|a b\n');
  });

  it('does not wait for one that asks for an answer itself', async () => {
    expect(await node('process.stdin.on("end", () => console.log("nobody there")).resume()')).toBe(
      'nobody there\n',
    );
  });
});
