import { describe, expect, it } from 'vitest';
import { awakeCommand, SleepInhibitor } from '#receiver/laptop/sleep.ts';
import { until } from '#tests/support/programs.ts';

describe('SleepInhibitor', () => {
  it('holds while its tool lives, and lets go', async () => {
    const sleep = new SleepInhibitor([process.execPath, ['-e', 'process.stdin.resume()']]);
    sleep.want(true);
    await until('it holds', () => sleep.finding() !== null);
    expect(sleep.finding()?.severity).toBe('well');
    sleep.want(false);
    expect(sleep.finding()).toBeNull();
  });

  it('says that the tool is absent or refused, and throws nothing', async () => {
    for (const [command, words] of [
      [['no-such-tool-here', []], 'there is no'],
      [[process.execPath, ['-e', 'process.exit(1)']], 'refused'],
    ] as const) {
      const sleep = new SleepInhibitor(command);
      sleep.want(true);
      await until('it is told', () => sleep.finding() !== null);
      expect(sleep.finding()).toMatchObject({ severity: 'notice' });
      expect(sleep.finding()?.found).toContain(words);
      sleep.release();
    }
  });

  it('knows a way on Linux, macOS and Windows, none of which asks for more rights', () => {
    for (const platform of ['linux', 'darwin', 'win32'] as const)
      expect(awakeCommand(platform, 7)?.join(' ')).not.toMatch(/sudo|runas|pkexec/i);
    expect(awakeCommand('aix', 7)).toBeNull();
  });
});
