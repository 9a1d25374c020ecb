import { once } from 'node:events';
import { type RawData, WebSocket } from 'ws';
import type { Program } from './programs.ts';

/** What a process holds after its garbage was collected, in megabytes (10^6 bytes). */
export interface MemoryFigures {
  /** Objects of the main thread. */
  readonly heapMB: number;
  /** Bytes of buffers outside the heap, of the main thread. */
  readonly buffersMB: number;
  /** What the system has given it, all threads. */
  readonly rssMB: number;
}

interface Answer {
  readonly id?: number;
  readonly result?: { readonly result?: { readonly value?: unknown } };
}

/** For `startProgram`: lets a program be asked what it holds. */
export const ASKED_FOR_MEMORY = ['--inspect=127.0.0.1:0'] as const;

/**
 * Asks a running program of ours through Node's own inspector to collect its garbage and then
 * what it holds. Nothing in the program serves this. Its threads are left alone: one that is
 * spoken to in the same way while it works may never go on (Node 20.20, seen).
 */
export class ProcessMemory {
  readonly #socket: WebSocket;
  readonly #answers = new Map<number, (answer: Answer) => void>();
  #id = 0;

  private constructor(socket: WebSocket) {
    this.#socket = socket;
    socket.on('message', (data: RawData) => this.#hear(JSON.parse(String(data)) as Answer));
    socket.on('error', () => {});
  }

  static async of(program: Program): Promise<ProcessMemory> {
    const [, url] = await program.says(/Debugger listening on (ws:\S+)/);
    const socket = new WebSocket(url!);
    const memory = new ProcessMemory(socket);
    await once(socket, 'open');
    return memory;
  }

  async figures(): Promise<MemoryFigures> {
    // Twice: what a first round finds unused may hold what a second one then frees.
    for (let round = 0; round < 2; round += 1) await this.#ask('HeapProfiler.collectGarbage', {});
    const answer = await this.#ask('Runtime.evaluate', {
      expression: 'JSON.stringify(process.memoryUsage())',
    });
    const usage = JSON.parse(String(answer.result?.result?.value)) as NodeJS.MemoryUsage;
    return {
      heapMB: usage.heapUsed / 1e6,
      buffersMB: usage.arrayBuffers / 1e6,
      rssMB: usage.rss / 1e6,
    };
  }

  close(): void {
    this.#socket.terminate();
  }

  #ask(method: string, params: object): Promise<Answer> {
    this.#id += 1;
    const id = this.#id;
    this.#socket.send(JSON.stringify({ id, method, params }));
    return new Promise((resolve) => this.#answers.set(id, resolve));
  }

  #hear(answer: Answer): void {
    if (answer.id === undefined) return;
    this.#answers.get(answer.id)?.(answer);
    this.#answers.delete(answer.id);
  }
}
