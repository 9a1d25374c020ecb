import { type ChildProcess, spawn } from 'node:child_process';
import type { Finding } from './matter.ts';

/** A tool that was refused says so by ending at once; one that lives this long holds. */
const HOLDS_AFTER_MS = 2000;
const END_WITHIN_MS = 2000;
/** SetThreadExecutionState of the Windows API: ES_CONTINUOUS | ES_SYSTEM_REQUIRED. */
const WINDOWS_AWAKE =
  "$t = Add-Type -PassThru -Name Awake -Namespace Heelwright -MemberDefinition '" +
  '[DllImport("kernel32.dll")] public static extern uint SetThreadExecutionState(uint flags);' +
  "'; [void]$t::SetThreadExecutionState(2147483649); [void][Console]::In.ReadToEnd()";

export type AwakeCommand = readonly [tool: string, args: readonly string[]];

/**
 * The tool that keeps this system awake as long as it lives; null where we know of none. Each ends
 * when its standard input, or the process it watches, ends: also when we are killed. None asks for
 * a password, because its input is no terminal.
 */
export function awakeCommand(platform: NodeJS.Platform, pid: number): AwakeCommand | null {
  if (platform === 'linux') {
    const why = ['--who=Heelwright', '--why=An inclining test is recorded', '--mode=block'];
    return ['systemd-inhibit', ['--what=sleep:idle', ...why, 'cat']];
  }
  if (platform === 'darwin') return ['caffeinate', ['-i', '-s', '-w', `${pid}`]];
  if (platform === 'win32')
    return ['powershell.exe', ['-NoProfile', '-NonInteractive', '-Command', WINDOWS_AWAKE]];
  return null;
}

/** Keeps the machine awake while it is wanted. What cannot be had is told as a finding, and is no fault. */
export class SleepInhibitor {
  readonly #command: AwakeCommand | null;
  #child: ChildProcess | null = null;
  #tried = false;
  #found: string | null = null;

  constructor(command: AwakeCommand | null) {
    this.#command = command;
  }

  /** Asked at every look; the tool is started once, and one that failed is not asked again. */
  want(wanted: boolean): void {
    if (!wanted) this.release();
    else if (!this.#tried) this.#start();
  }

  /** Null while it is not wanted or not yet known. */
  finding(): Finding | null {
    if (this.#found === null) return null;
    const severity = this.#child === null ? 'notice' : 'well';
    return { matter: 'sleep', station: null, severity, found: this.#found };
  }

  /** Lets the machine sleep again. */
  release(): void {
    const child = this.#child;
    this.#child = null;
    this.#tried = false;
    this.#found = null;
    if (child === null) return;
    child.stdin?.end();
    const timer = setTimeout(() => child.kill('SIGKILL'), END_WITHIN_MS);
    child.once('exit', () => clearTimeout(timer));
    child.kill('SIGTERM');
  }

  #start(): void {
    this.#tried = true;
    if (this.#command === null) {
      this.#found = 'this system offers no way to stay awake that is known here';
      return;
    }
    const [tool, args] = this.#command;
    const child = spawn(tool, [...args], {
      stdio: ['pipe', 'ignore', 'ignore'],
      windowsHide: true,
    });
    this.#child = child;
    const holds = setTimeout(() => {
      if (this.#child === child) this.#found = `${tool} keeps the machine awake`;
    }, HOLDS_AFTER_MS);
    holds.unref();
    const over = (found: string) => {
      clearTimeout(holds);
      if (this.#child !== child) return;
      this.#child = null;
      this.#found = found;
    };
    // The pipe of a tool that ended breaks by itself.
    child.stdin.on('error', () => {});
    child.once('error', (error: NodeJS.ErrnoException) =>
      over(
        error.code === 'ENOENT'
          ? `there is no ${tool} here`
          : `${tool}: ${error.message}`.slice(0, 300),
      ),
    );
    child.once('exit', (code, signal) =>
      over(`${tool} was refused (ended with ${code ?? signal})`),
    );
  }
}
