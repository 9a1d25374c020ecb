import { execFile } from 'node:child_process';

const ANSWER_WITHIN_MS = 10_000;
const MOST_ANSWER_BYTES = 64 * 1024;

/** What a tool of the system prints, or null where it is absent, fails, or takes too long. */
export function answerOf(tool: string, args: readonly string[]): Promise<string | null> {
  return new Promise((resolve) => {
    const limits = {
      timeout: ANSWER_WITHIN_MS,
      killSignal: 'SIGKILL',
      maxBuffer: MOST_ANSWER_BYTES,
      windowsHide: true,
    } as const;
    const child = execFile(tool, [...args], limits, (error, stdout) =>
      resolve(error === null ? stdout : null),
    );
    // One that asks a question itself finds nobody there, instead of us waiting for it.
    child.stdin?.on('error', () => {}).end();
  });
}
